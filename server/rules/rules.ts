/** Every quantity that books put limits on: one file each. */
import { anchorLoad } from './measures/anchor-load';
import { anchorPlateArea } from './measures/anchor-plate-area';
import { anchorPlateThickness } from './measures/anchor-plate-thickness';
import { anchorShared } from './measures/anchor-shared';
import { anchorThroughSeat } from './measures/anchor-through-seat';
import { backstayAngle } from './measures/backstay-angle';
import { backstayCrown } from './measures/backstay-crown';
import { backstayDiagonalForm } from './measures/backstay-diagonal-form';
import { backstayDrop } from './measures/backstay-drop';
import { backstayHoopAngle } from './measures/backstay-hoop-angle';
import { backstayMissing } from './measures/backstay-missing';
import { backstayPlaneAngle } from './measures/backstay-plane-angle';
import { backstayRearward } from './measures/backstay-rearward';
import { bendDifficulty } from './measures/bend-difficulty';
import { bendRadius } from './measures/bend-radius';
import { bendThinning } from './measures/bend-thinning';
import { boltGrade } from './measures/bolt-grade';
import { braceHalfWay } from './measures/brace-half-way';
import { cageIdentified } from './measures/cage-identified';
import { cageLength } from './measures/cage-length';
import { cageModified } from './measures/cage-modified';
import { cageRoute } from './measures/cage-route';
import { crossWhole } from './measures/cross-whole';
import { dashBar } from './measures/dash-bar';
import { dashColumn } from './measures/dash-column';
import { dashHeight } from './measures/dash-height';
import { diagonalBottom } from './measures/diagonal-bottom';
import { diagonalCorner } from './measures/diagonal-corner';
import { diagonalCross } from './measures/diagonal-cross';
import { diagonalFeet } from './measures/diagonal-feet';
import { diagonalInPlane } from './measures/diagonal-in-plane';
import { diagonalMissing } from './measures/diagonal-missing';
import { diagonalOnHarnessBar } from './measures/diagonal-on-harness-bar';
import { diagonalTop } from './measures/diagonal-top';
import { doorAlike } from './measures/door-alike';
import { doorBars } from './measures/door-bars';
import { doorHeight } from './measures/door-height';
import { doorSeatGap } from './measures/door-seat-gap';
import { extensionReach } from './measures/extension-reach';
import { fittingAtRoof } from './measures/fitting-at-roof';
import { fittingBush } from './measures/fitting-bush';
import { fittingDrawing } from './measures/fitting-drawing';
import { fittingOnHarnessBar } from './measures/fitting-on-harness-bar';
import { fittingWelded } from './measures/fitting-welded';
import { footArea } from './measures/foot-area';
import { footBoltAngle } from './measures/foot-bolt-angle';
import { footBoltEdge } from './measures/foot-bolt-edge';
import { footBoltSize } from './measures/foot-bolt-size';
import { footBolts } from './measures/foot-bolts';
import { footCount } from './measures/foot-count';
import { footEdge } from './measures/foot-edge';
import { footHeld } from './measures/foot-held';
import { footMissing } from './measures/foot-missing';
import { footSide } from './measures/foot-side';
import { footThickness } from './measures/foot-thickness';
import { footTubeWall } from './measures/foot-tube-wall';
import { galvanizedFoot } from './measures/galvanized-foot';
import { galvanizedHole } from './measures/galvanized-hole';
import { galvanizedSealed } from './measures/galvanized-sealed';
import { galvanizedWeld } from './measures/galvanized-weld';
import { gussetCutOut } from './measures/gusset-cut-out';
import { gussetHole } from './measures/gusset-hole';
import { gussetKind } from './measures/gusset-kind';
import { gussetLegs } from './measures/gusset-legs';
import { gussetMissing } from './measures/gusset-missing';
import { gussetThickness } from './measures/gusset-thickness';
import { harnessDiagonal } from './measures/harness-diagonal';
import { harnessEnds } from './measures/harness-ends';
import { holeExisting } from './measures/hole-existing';
import { hoopBends } from './measures/hoop-bends';
import { hoopFlat } from './measures/hoop-flat';
import { hoopFrontFoot } from './measures/hoop-front-foot';
import { hoopLegBends } from './measures/hoop-leg-bends';
import { hoopLegSpacing } from './measures/hoop-leg-spacing';
import { hoopMissing } from './measures/hoop-missing';
import { hoopRearLeg } from './measures/hoop-rear-leg';
import { hoopTilt } from './measures/hoop-tilt';
import { hoopTotalAngle } from './measures/hoop-total-angle';
import { jointEccentricity } from './measures/joint-eccentricity';
import { jointGap } from './measures/joint-gap';
import { jointOdRatio } from './measures/joint-od-ratio';
import { jointToeSpacing } from './measures/joint-toe-spacing';
import { jointToeToBend } from './measures/joint-toe-to-bend';
import { paddingFixed } from './measures/padding-fixed';
import { paddingFlame } from './measures/padding-flame';
import { paddingMissing } from './measures/padding-missing';
import { paddingStandard } from './measures/padding-standard';
import { pillarBend } from './measures/pillar-bend';
import { pillarBottom } from './measures/pillar-bottom';
import { pillarMissing } from './measures/pillar-missing';
import { pillarSideView } from './measures/pillar-side-view';
import { pillarTop } from './measures/pillar-top';
import { roofBars } from './measures/roof-bars';
import { roofEnds } from './measures/roof-ends';
import { roofForm } from './measures/roof-form';
import { roofGap } from './measures/roof-gap';
import { seatCushion } from './measures/seat-cushion';
import { seatGap } from './measures/seat-gap';
import { seatMountArea } from './measures/seat-mount-area';
import { seatMountBoltSize } from './measures/seat-mount-bolt-size';
import { seatMountLength } from './measures/seat-mount-length';
import { seatMountLoad } from './measures/seat-mount-load';
import { seatMountPoints } from './measures/seat-mount-points';
import { seatMountQuickRelease } from './measures/seat-mount-quick-release';
import { seatMountSeatBolts } from './measures/seat-mount-seat-bolts';
import { seatMountThickness } from './measures/seat-mount-thickness';
import { steelAnalysis } from './measures/steel-analysis';
import { strapBarDrop } from './measures/strap-bar-drop';
import { strapBolt } from './measures/strap-bolt';
import { strapCrossing } from './measures/strap-crossing';
import { strapDrop } from './measures/strap-drop';
import { strapFreeRun } from './measures/strap-free-run';
import { strapGap } from './measures/strap-gap';
import { strapInsert } from './measures/strap-insert';
import { strapLength } from './measures/strap-length';
import { strapShoulderAngle } from './measures/strap-shoulder-angle';
import { strapShoulderDrop } from './measures/strap-shoulder-drop';
import { strapShoulderReach } from './measures/strap-shoulder-reach';
import { strapSkew } from './measures/strap-skew';
import { strapSpacing } from './measures/strap-spacing';
import { strapSpacingFormula } from './measures/strap-spacing-formula';
import { strapSpread } from './measures/strap-spread';
import { structureMissing } from './measures/structure-missing';
import { structureRoofLevel } from './measures/structure-roof-level';
import { tubeCarries } from './measures/tube-carries';
import { tubeFinish } from './measures/tube-finish';
import { tubeMaterial } from './measures/tube-material';
import { tubePieces } from './measures/tube-pieces';
import { tubeSameAsHoop } from './measures/tube-same-as-hoop';
import { tubeSize } from './measures/tube-size';
import { tubeStraight } from './measures/tube-straight';
import { tubeStrength } from './measures/tube-strength';
import { ventBend } from './measures/vent-bend';
import { ventSize } from './measures/vent-size';
import { ventSpan } from './measures/vent-span';
import { weldProcess } from './measures/weld-process';
import { weldRound } from './measures/weld-round';
import type { Rule } from './rule';

export const RULES: readonly Rule[] = [
  anchorLoad,
  anchorPlateArea,
  anchorPlateThickness,
  anchorShared,
  anchorThroughSeat,
  backstayAngle,
  backstayCrown,
  backstayDiagonalForm,
  backstayDrop,
  backstayHoopAngle,
  backstayMissing,
  backstayPlaneAngle,
  backstayRearward,
  bendDifficulty,
  bendRadius,
  bendThinning,
  boltGrade,
  braceHalfWay,
  cageIdentified,
  cageLength,
  cageModified,
  cageRoute,
  crossWhole,
  dashBar,
  dashColumn,
  dashHeight,
  diagonalBottom,
  diagonalCorner,
  diagonalCross,
  diagonalFeet,
  diagonalInPlane,
  diagonalMissing,
  diagonalOnHarnessBar,
  diagonalTop,
  doorAlike,
  doorBars,
  doorHeight,
  doorSeatGap,
  extensionReach,
  fittingAtRoof,
  fittingBush,
  fittingDrawing,
  fittingOnHarnessBar,
  fittingWelded,
  footArea,
  footBoltAngle,
  footBoltEdge,
  footBolts,
  footBoltSize,
  footCount,
  footEdge,
  footHeld,
  footMissing,
  footSide,
  footThickness,
  footTubeWall,
  galvanizedFoot,
  galvanizedHole,
  galvanizedSealed,
  galvanizedWeld,
  gussetCutOut,
  gussetHole,
  gussetKind,
  gussetLegs,
  gussetMissing,
  gussetThickness,
  harnessDiagonal,
  harnessEnds,
  holeExisting,
  hoopBends,
  hoopFlat,
  hoopFrontFoot,
  hoopLegBends,
  hoopLegSpacing,
  hoopMissing,
  hoopRearLeg,
  hoopTilt,
  hoopTotalAngle,
  jointEccentricity,
  jointGap,
  jointOdRatio,
  jointToeSpacing,
  jointToeToBend,
  paddingFixed,
  paddingFlame,
  paddingMissing,
  paddingStandard,
  pillarBend,
  pillarBottom,
  pillarMissing,
  pillarSideView,
  pillarTop,
  roofBars,
  roofEnds,
  roofForm,
  roofGap,
  seatCushion,
  seatGap,
  seatMountArea,
  seatMountBoltSize,
  seatMountLength,
  seatMountLoad,
  seatMountPoints,
  seatMountQuickRelease,
  seatMountSeatBolts,
  seatMountThickness,
  steelAnalysis,
  strapBarDrop,
  strapBolt,
  strapCrossing,
  strapDrop,
  strapFreeRun,
  strapGap,
  strapInsert,
  strapLength,
  strapShoulderAngle,
  strapShoulderDrop,
  strapShoulderReach,
  strapSkew,
  strapSpacing,
  strapSpacingFormula,
  strapSpread,
  structureMissing,
  structureRoofLevel,
  tubeCarries,
  tubeFinish,
  tubeMaterial,
  tubePieces,
  tubeSameAsHoop,
  tubeSize,
  tubeStraight,
  tubeStrength,
  ventBend,
  ventSize,
  ventSpan,
  weldProcess,
  weldRound,
];

/** Every quantity that books put limits on: one file each. */
import { anchorAdjuster } from './measures/anchor-adjuster';
import { anchorBoltSize } from './measures/anchor-bolt-size';
import { anchorFixing } from './measures/anchor-fixing';
import { anchorLapAngle } from './measures/anchor-lap-angle';
import { anchorLoad } from './measures/anchor-load';
import { anchorPlateArea } from './measures/anchor-plate-area';
import { anchorPlateThickness } from './measures/anchor-plate-thickness';
import { anchorShared } from './measures/anchor-shared';
import { anchorSpacing } from './measures/anchor-spacing';
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
import { cageClass } from './measures/cage-class';
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
import { doorShoulder } from './measures/door-shoulder';
import { extensionReach } from './measures/extension-reach';
import { fittingAtRoof } from './measures/fitting-at-roof';
import { fittingBush } from './measures/fitting-bush';
import { fittingDrawing } from './measures/fitting-drawing';
import { fittingOnHarnessBar } from './measures/fitting-on-harness-bar';
import { fittingStandOff } from './measures/fitting-stand-off';
import { fittingWelded } from './measures/fitting-welded';
import { footArea } from './measures/foot-area';
import { footBoltAngle } from './measures/foot-bolt-angle';
import { footBoltEdge } from './measures/foot-bolt-edge';
import { footBoltSize } from './measures/foot-bolt-size';
import { footBolts } from './measures/foot-bolts';
import { footCount } from './measures/foot-count';
import { footCounterPlate } from './measures/foot-counter-plate';
import { footEdge } from './measures/foot-edge';
import { footFrame } from './measures/foot-frame';
import { footHeld } from './measures/foot-held';
import { footMissing } from './measures/foot-missing';
import { footSide } from './measures/foot-side';
import { footThickness } from './measures/foot-thickness';
import { footTubeWall } from './measures/foot-tube-wall';
import { footWelded } from './measures/foot-welded';
import { galvanizedFoot } from './measures/galvanized-foot';
import { galvanizedHole } from './measures/galvanized-hole';
import { galvanizedSealed } from './measures/galvanized-sealed';
import { galvanizedWeld } from './measures/galvanized-weld';
import { gussetCount } from './measures/gusset-count';
import { gussetCutOut } from './measures/gusset-cut-out';
import { gussetHole } from './measures/gusset-hole';
import { gussetKind } from './measures/gusset-kind';
import { gussetLegs } from './measures/gusset-legs';
import { gussetMissing } from './measures/gusset-missing';
import { gussetThickness } from './measures/gusset-thickness';
import { harnessDiagonal } from './measures/harness-diagonal';
import { harnessEnds } from './measures/harness-ends';
import { helmetBehind } from './measures/helmet-behind';
import { helmetClearance } from './measures/helmet-clearance';
import { helmetLine } from './measures/helmet-line';
import { helmetReach } from './measures/helmet-reach';
import { holeExisting } from './measures/hole-existing';
import { holeInspection } from './measures/hole-inspection';
import { holeInspectionSize } from './measures/hole-inspection-size';
import { holePlace } from './measures/hole-place';
import { holeSleeve } from './measures/hole-sleeve';
import { hoopBends } from './measures/hoop-bends';
import { hoopFlat } from './measures/hoop-flat';
import { hoopFrontFoot } from './measures/hoop-front-foot';
import { hoopLegBends } from './measures/hoop-leg-bends';
import { hoopLegSpacing } from './measures/hoop-leg-spacing';
import { hoopMissing } from './measures/hoop-missing';
import { hoopPillarGap } from './measures/hoop-pillar-gap';
import { hoopRearLeg } from './measures/hoop-rear-leg';
import { hoopRoofGap } from './measures/hoop-roof-gap';
import { hoopTilt } from './measures/hoop-tilt';
import { hoopTotalAngle } from './measures/hoop-total-angle';
import { hoopWidth } from './measures/hoop-width';
import { jointEccentricity } from './measures/joint-eccentricity';
import { jointGap } from './measures/joint-gap';
import { jointOdRatio } from './measures/joint-od-ratio';
import { jointToeSpacing } from './measures/joint-toe-spacing';
import { jointToeToBend } from './measures/joint-toe-to-bend';
import { paddingCertified } from './measures/padding-certified';
import { paddingFixed } from './measures/padding-fixed';
import { paddingFlame } from './measures/padding-flame';
import { paddingMissing } from './measures/padding-missing';
import { paddingStandard } from './measures/padding-standard';
import { paddingThickness } from './measures/padding-thickness';
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
import { strapAdjuster } from './measures/strap-adjuster';
import { strapBarDrop } from './measures/strap-bar-drop';
import { strapBolt } from './measures/strap-bolt';
import { strapCrossing } from './measures/strap-crossing';
import { strapDrop } from './measures/strap-drop';
import { strapFreeRun } from './measures/strap-free-run';
import { strapGap } from './measures/strap-gap';
import { strapInsert } from './measures/strap-insert';
import { strapLength } from './measures/strap-length';
import { strapLocked } from './measures/strap-locked';
import { strapShoulderAngle } from './measures/strap-shoulder-angle';
import { strapShoulderDrop } from './measures/strap-shoulder-drop';
import { strapShoulderReach } from './measures/strap-shoulder-reach';
import { strapSkew } from './measures/strap-skew';
import { strapSlider } from './measures/strap-slider';
import { strapSliderSeat } from './measures/strap-slider-seat';
import { strapSpacing } from './measures/strap-spacing';
import { strapSpacingFormula } from './measures/strap-spacing-formula';
import { strapSpine } from './measures/strap-spine';
import { strapSpread } from './measures/strap-spread';
import { strapTail } from './measures/strap-tail';
import { structureMissing } from './measures/structure-missing';
import { structureRoofLevel } from './measures/structure-roof-level';
import { tubeCarries } from './measures/tube-carries';
import { tubeFinish } from './measures/tube-finish';
import { tubeMaterial } from './measures/tube-material';
import { tubeMeasuredWall } from './measures/tube-measured-wall';
import { tubePieces } from './measures/tube-pieces';
import { tubeSameAsHoop } from './measures/tube-same-as-hoop';
import { tubeSize } from './measures/tube-size';
import { tubeStraight } from './measures/tube-straight';
import { tubeStrength } from './measures/tube-strength';
import { ventBend } from './measures/vent-bend';
import { ventSize } from './measures/vent-size';
import { ventSpan } from './measures/vent-span';
import { weldAlloy } from './measures/weld-alloy';
import { weldGround } from './measures/weld-ground';
import { weldProcess } from './measures/weld-process';
import { weldRound } from './measures/weld-round';
import type { Rule } from './rule';

export const RULES: readonly Rule[] = [
  anchorAdjuster,
  anchorBoltSize,
  anchorFixing,
  anchorLapAngle,
  anchorLoad,
  anchorPlateArea,
  anchorPlateThickness,
  anchorShared,
  anchorSpacing,
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
  cageClass,
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
  doorShoulder,
  extensionReach,
  fittingAtRoof,
  fittingBush,
  fittingDrawing,
  fittingOnHarnessBar,
  fittingStandOff,
  fittingWelded,
  footArea,
  footBoltAngle,
  footBoltEdge,
  footBoltSize,
  footBolts,
  footCount,
  footCounterPlate,
  footEdge,
  footFrame,
  footHeld,
  footMissing,
  footSide,
  footThickness,
  footTubeWall,
  footWelded,
  galvanizedFoot,
  galvanizedHole,
  galvanizedSealed,
  galvanizedWeld,
  gussetCount,
  gussetCutOut,
  gussetHole,
  gussetKind,
  gussetLegs,
  gussetMissing,
  gussetThickness,
  harnessDiagonal,
  harnessEnds,
  helmetBehind,
  helmetClearance,
  helmetLine,
  helmetReach,
  holeExisting,
  holeInspection,
  holeInspectionSize,
  holePlace,
  holeSleeve,
  hoopBends,
  hoopFlat,
  hoopFrontFoot,
  hoopLegBends,
  hoopLegSpacing,
  hoopMissing,
  hoopPillarGap,
  hoopRearLeg,
  hoopRoofGap,
  hoopTilt,
  hoopTotalAngle,
  hoopWidth,
  jointEccentricity,
  jointGap,
  jointOdRatio,
  jointToeSpacing,
  jointToeToBend,
  paddingCertified,
  paddingFixed,
  paddingFlame,
  paddingMissing,
  paddingStandard,
  paddingThickness,
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
  strapAdjuster,
  strapBarDrop,
  strapBolt,
  strapCrossing,
  strapDrop,
  strapFreeRun,
  strapGap,
  strapInsert,
  strapLength,
  strapLocked,
  strapShoulderAngle,
  strapShoulderDrop,
  strapShoulderReach,
  strapSkew,
  strapSlider,
  strapSliderSeat,
  strapSpacing,
  strapSpacingFormula,
  strapSpine,
  strapSpread,
  strapTail,
  structureMissing,
  structureRoofLevel,
  tubeCarries,
  tubeFinish,
  tubeMaterial,
  tubeMeasuredWall,
  tubePieces,
  tubeSameAsHoop,
  tubeSize,
  tubeStraight,
  tubeStrength,
  ventBend,
  ventSize,
  ventSpan,
  weldAlloy,
  weldGround,
  weldProcess,
  weldRound,
];

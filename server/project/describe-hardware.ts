/** What is welded, bolted, drilled and laid round the cage, and the car's own facts, as data for JSON. */
import type { Bolts, Cage, CounterPlate, Foot, Hardware, Plate, Seat, Thing, Vehicle } from '../cage/cage';
import type { Vec3 } from '../centreline/vector';
import { angle, point, rounded } from './json-figures';

const TURN = 2 * Math.PI;

/** From 0 up to, not including, 360 degrees. */
const clock = (radians: number | null) => {
  const value = angle(radians === null ? null : ((radians % TURN) + TURN) % TURN);
  return value === 360 ? 0 : value;
};

const boltsJson = (bolts: Bolts | null) =>
  bolts === null
    ? null
    : { count: bolts.count, diameter: rounded(bolts.diameter), grade: rounded(bolts.grade?.value ?? null) };

const plateJson = (plate: Plate | null) =>
  plate === null ? null : { long: rounded(plate.long), wide: rounded(plate.wide), thick: rounded(plate.thick) };

const counterPlateJson = (plate: CounterPlate | null) => {
  const size = plateJson(plate);
  return size === null ? null : { ...size, held: plate?.held ?? null };
};

const outlineJson = (outline: readonly Vec3[] | null) => outline?.map((at) => point(at)) ?? null;

const footJson = (foot: Foot) => ({
  name: foot.name,
  node: foot.node,
  plate: foot.plate === null ? null : { ...plateJson(foot.plate), turned: angle(foot.plate.turned) },
  bolts: boltsJson(foot.bolts),
  boltsAt: foot.boltsAt?.map(({ forward, left }) => ({ forward: rounded(forward), left: rounded(left) })) ?? null,
  counterPlate: counterPlateJson(foot.counterPlate),
  welded: foot.welded,
  on: foot.on,
  hole: rounded(foot.hole),
});

/** What is written of a seat, beside what is measured of it. */
export const seatFacts = (seat: Seat | undefined) => ({
  recline: seat?.reclineRange ? { from: angle(seat.reclineRange.from), to: angle(seat.reclineRange.to) } : null,
  slide: seat?.slideRange ? { from: rounded(seat.slideRange.from), to: rounded(seat.slideRange.to) } : null,
  helmet:
    seat === undefined || seat.helmet === null || seat.slots === null
      ? null
      : {
          middle: point([
            seat.slots[0] + seat.helmet.offset[0],
            seat.slots[1] + seat.helmet.offset[1],
            seat.slots[2] + seat.helmet.offset[2],
          ]),
          radius: rounded(seat.helmet.radius),
        },
});

const one = {
  gusset: (thing: Hardware & { kind: 'gusset' }) => ({
    name: thing.name,
    node: thing.node,
    between: thing.between,
    legs: thing.legs?.map((leg) => rounded(leg)) ?? null,
    thickness: rounded(thing.thickness),
    kind: thing.made,
    cutOut: rounded(thing.cutOut),
    hole: rounded(thing.hole),
  }),
  hole: (thing: Hardware & { kind: 'hole' }) => ({
    tube: thing.tube,
    purpose: thing.purpose,
    station: rounded(thing.station),
    clock: clock(thing.clock),
    dia: rounded(thing.dia),
    sleeve: thing.sleeve,
    plug: thing.plug,
  }),
  padding: (thing: Hardware & { kind: 'padding' }) => ({
    tube: thing.tube,
    thickness: rounded(thing.thickness),
    from: rounded(thing.from),
    to: rounded(thing.to),
    standard: thing.standard,
    flameRetardant: thing.flameRetardant,
    fixed: thing.fixed,
  }),
  fitting: (thing: Hardware & { kind: 'fitting' }) => ({
    name: thing.name,
    tube: thing.tube,
    end: thing.end,
    kind: thing.made,
    shear: thing.shear,
    bolt: boltsJson(thing.bolt),
    standOff: rounded(thing.standOff),
    drawing: thing.drawing,
    welded: thing.welded,
    bush: thing.bush,
  }),
  door: (thing: Hardware & { kind: 'door' }) => ({ name: thing.name, outline: outlineJson(thing.outline) }),
  panel: (thing: Hardware & { kind: 'panel' }) => ({
    name: thing.name,
    as: thing.as,
    outline: outlineJson(thing.outline),
  }),
  'seat-mount': (thing: Hardware & { kind: 'seat-mount' }) => ({
    name: thing.name,
    seat: thing.seat,
    points: thing.points,
    bolts: boltsJson(thing.bolts),
    seatBolts: boltsJson(thing.seatBolts),
    plate: plateJson(thing.plate),
    counterPlate: counterPlateJson(thing.counterPlate),
    material: thing.material,
    approved: thing.approved,
    load: rounded(thing.load),
    quickRelease: rounded(thing.quickRelease),
  }),
  anchor: (thing: Hardware & { kind: 'anchor' }) => ({
    name: thing.name,
    as: thing.as,
    seat: thing.seat,
    at: point(thing.at),
    tube: thing.tube,
    plate: plateJson(thing.plate),
    bolt: boltsJson(thing.bolt),
    fixing: thing.fixing,
    series: thing.series,
    throughSeat: thing.throughSeat,
    adjuster: rounded(thing.adjuster),
    load: rounded(thing.load),
  }),
};

const vehicleJson = (vehicle: Vehicle | null) =>
  vehicle === null
    ? null
    : {
        mass: rounded(vehicle.mass),
        withDriver: vehicle.withDriver,
        driver: rounded(vehicle.driver),
        body: vehicle.body,
        homologated: vehicle.homologated,
        passport: vehicle.passport,
        cage: vehicle.cage,
        identified: vehicle.identified,
        shell: vehicle.shell,
        frame: vehicle.frame,
        codriver: vehicle.codriver,
        kind: vehicle.kind,
        elapsedTime: rounded(vehicle.elapsedTime),
        frontSuspension: point(vehicle.frontSuspension),
        rearSuspension: point(vehicle.rearSuspension),
        finish: vehicle.finish,
      };

/** The car's own facts, and a list of each kind, in the order of the cage. */
export function hardwareJson(cage: Cage) {
  const things = [...cage.things.values()];
  const all = <K extends Thing['kind']>(kind: K): (Thing & { kind: K })[] =>
    things.filter((thing): thing is Thing & { kind: K } => thing.kind === kind);
  return {
    vehicle: vehicleJson(cage.vehicle),
    feet: all('foot').map(footJson),
    gussets: all('gusset').map(one.gusset),
    holes: all('hole').map(one.hole),
    padding: all('padding').map(one.padding),
    fittings: all('fitting').map(one.fitting),
    doors: all('door').map(one.door),
    panels: all('panel').map(one.panel),
    seatMounts: all('seat-mount').map(one['seat-mount']),
    anchors: all('anchor').map(one.anchor),
  };
}

/** Hoops of two, four and six bends, for the examples of the rules about them. */

const shoe = 'foot shoe { at foot; plate 140 x 100 x 3; bolts 3 x M8; hole 8 }';

export const TWO_BENDS = (crown = '(0, 550, 1000)', foot = '(0, 600, 0)'): string => `mirror left {
  node foot = ${foot}
  node crown = ${crown}
  ${shoe}
}
tube hoop as main-rollbar { section t45; die d45; path foot.left, crown.left, crown.right, foot.right }`;

export const FOUR_BENDS = (waist = '(0, 610, 500)', crown = '(0, 540, 1000)', right = ''): string => `mirror left {
  node foot = (0, 600, 0)
  node waist = ${waist}
  node crown = ${crown}
  ${shoe}
}
tube hoop as main-rollbar { section t45; die d45; path foot.left, waist.left, crown.left, crown.right, waist.right, foot.right }${right}`;

export const SIX_BENDS = `mirror left {
  node foot = (0, 600, 0)
  node knee = (0, 680, 300)
  node waist = (0, 650, 620)
  node crown = (0, 480, 1000)
  ${shoe}
}
tube hoop as main-rollbar { section t45; die d45; path foot.left, knee.left, waist.left, crown.left, crown.right, waist.right, knee.right, foot.right }`;

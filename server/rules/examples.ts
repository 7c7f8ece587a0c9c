/** Pieces of the little cars in which the rules' examples stand, on the stage with a hoop of 45 x 2.5, 1000 high. */

/** Two backstays from the hoop. */
export const stays = (top = 'at 60 before crown', foot = '(-700, 500, 300)', plate = '100 x 80 x 3'): string =>
  `mirror left {
  node stay-top = on hoop ${top}
  node stay-foot = ${foot}
  tube stay as backstay { section t38; path stay-top, stay-foot }
  foot stay-plate { at stay-foot; plate ${plate}; lies square; bolts 2 x M8; hole 8 }
}`;

/** One diagonal, from the left top to the right foot. */
export const diagonal = (top = 'at 110 before crown.left', low = 'at 70 from foot.right'): string =>
  `node x-top = on hoop ${top}
node x-low = on hoop ${low}
tube cross as diagonal { section t38; path x-top, x-low }
vent cross -> hoop { at x-low; dia 5 }`;

/** Two half-laterals with their front feet, and a tube across between them. */
export const front = (knee = '(900, 600, 700)', foot = '(1000, 610, 0)', header = 'at 30 after head'): string =>
  `mirror left {
  node roof-rear = on hoop at 20 after crown
  node head = (500, 440, 1000)
  node knee = ${knee}
  node front-foot = ${foot}
  tube side as half-lateral { section t38; die d38; path roof-rear, head, knee, front-foot }
  foot front-shoe { at front-foot; plate 140 x 100 x 3; bolts 3 x M8; hole 8 }
  node header-end = on side ${header}
}
tube header as transverse { section t38; path header-end.left, header-end.right }
vent header -> side.left { at header-end.left; dia 5 }`;

/** A harness bar with the two straps of one seat. */
export const belts = (slots: string, left = '', right = left, seat = 'shoulder (forward 110, up 30)'): string =>
  `mirror left { node bar-end = on hoop where z = 700 }
tube bar as harness-bar { section t38; path bar-end.left, bar-end.right }
vent bar -> hoop { at bar-end.left; dia 5 }
seat driver { slots ${slots}; recline 10 deg; slot-spacing 220; back 45; ${seat} }
strap left { seat driver; slot left; to bar; ${left}width 75; hardware 60; collars 20 gap 1.5 }
strap right { seat driver; slot right; to bar; ${right}width 75; hardware 60; collars 20 gap 1.5 }`;

/** A small plan that has every kind of thing once, one key or few to a line, for tests that break it. */
export const SMALL_PLAN = `# a small plan
setwright: 1
title: Loft corner
units: {length: ft-in, fraction: 1/16, currency: USD}
room:
  ceiling: 8'
  walls:
    - id: north
      length: 10'
      framing:
        kind: timber stud
        spacing: 16"
        board: 1/2"
      colour: "#d8c9a0"
    - {id: east, length: 8'}
    - {id: south, length: 10'}
    - {id: west, length: 8'}
  openings:
    - {id: hatch, wall: south, kind: door, from: 2', width: 30", height: 6' 6"}
  services:
    - {wall: north, kind: outlet, at: 3', height: 16"}
  survey:
    - wall: north
      height: 30"
      offsets:
        0: 0
        2' 6": 1/16"
        5': 1/8"
stock:
  tax: 7
  suppliers:
    - {id: mill, name: The mill}
  panels:
    - id: birch 3/4
      thickness: 0.703"
      nominal: 3/4
      sizes:
        - {length: 96", width: 48", price: 84.50, supplier: mill, date: 2026-11-03}
    - {id: birch 1/4, thickness: 0.205"}
  boards:
    - id: poplar 1x4
      nominal: 1x4
      lengths:
        - {length: 8', price: 17.6, supplier: mill}
  packs:
    - {id: band, use: edge band, holds: 25 ft, price: 9.75}
  rack:
    - {stock: birch 3/4, length: 47-1/2", width: 22"}
shop:
  kerf: 1/8"
  lift: 50 lb
make:
  panel: birch 3/4
  band: band
  back: {kind: rabbeted, panel: birch 1/4}
build: low
options:
  - id: low
    pieces:
      - case: scores
        wall: north
        from: 6"
        size: {width: 4', height: 30", depth: 16"}
        inside:
          columns:
            - {open: [11", 1*]}
            - {width: 20", door: left, shelves: 1}
            - {drawers: 3}
      - case: machines
        after: scores
        wall: north
        size: {width: 3', height: 30", depth: 16"}
      - shelf: upper
        wall: north
        from: 6"
        above: 5'
        size: {width: 4', height: 2-1/4", depth: 10"}
        skin: birch 1/4
        rods: {diameter: 1/2"}
      - display: screen
        wall: north
        centre: 6'
        size: {width: 43", height: 25", depth: 2"}
        mass: 26 lb
      - lining: backing
        wall: north
        from: 4'
        size: {width: 4', height: 3'}
        panel: birch 1/4
        battens: {board: poplar 1x4, spacing: 16"}
      - thing: chair
        size: {width: 18", height: 33", depth: 20"}
        at: {x: 6', y: 5'}
`;

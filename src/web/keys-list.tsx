const KEYS: readonly (readonly [string, string])[] = [
  ['Tab', 'from piece to piece on the drawing, then to its bays'],
  ['Arrows', 'move the piece; with Shift further'],
  ['Alt and arrows', 'make it wider, narrower, higher, lower; with Shift by more'],
  ['Ctrl D', 'copy it'],
  ['M', 'mirror it'],
  ['Delete', 'take it away'],
  ['Escape', 'let go of what is dragged; bring back what stood in a field'],
  ['Enter', 'keep what was typed in a field'],
  ['Ctrl Z, Ctrl Y', 'undo, do again: without end, also after the page was loaded again'],
  ['Arrows in the register', 'from page to page; Enter opens one'],
  ['Ctrl and the wheel', 'closer to the drawing, further from it'],
  ['Alt while dragging', 'nothing catches'],
  ['?', 'this list'],
];

/** What the keys do. */
export default function KeysList() {
  return (
    <dl className="keys">
      {KEYS.map(([key, words]) => (
        <div key={key}>
          <dt>{key}</dt>
          <dd>{words}</dd>
        </div>
      ))}
    </dl>
  );
}

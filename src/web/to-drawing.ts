/** What had the focus goes away with what was pressed: who works by key, or hears the page, goes on at the drawing. */
export const toDrawing = (): void => {
  requestAnimationFrame(() => document.getElementById('drawing')?.focus({ preventScroll: true }));
};

/** Light or dark as the reader wants it, or as the system says. Kept by the browser. */
export const THEMES = ['system', 'light', 'dark'] as const;
export type Theme = (typeof THEMES)[number];

export function themeNow(): Theme {
  try {
    const kept = localStorage.getItem('setwright:theme');
    return THEMES.find((theme) => theme === kept) ?? 'system';
  } catch {
    return 'system';
  }
}
export function putOn(theme: Theme): void {
  if (theme === 'system') delete document.documentElement.dataset.theme;
  else document.documentElement.dataset.theme = theme;
  try {
    localStorage.setItem('setwright:theme', theme);
  } catch {
    // not kept
  }
}

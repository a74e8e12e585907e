// Light, dark, sun: kept in a cookie, so that the server can send the page in the right one.

const THEMES = ["light", "dark", "sun"];
const A_YEAR_S = 31536000;

function themeNow() {
  const chosen = document.documentElement.dataset.theme;
  return chosen || (matchMedia("(prefers-color-scheme: dark)").matches ? "dark" : "light");
}

function say(button, theme) {
  const name = theme[0].toUpperCase() + theme.slice(1);
  button.querySelector("[data-theme-name]").textContent = name;
  button.setAttribute("aria-label", `${name}: change the look`);
}

export function start(button) {
  button.hidden = false;
  say(button, themeNow());
  button.addEventListener("click", () => {
    const next = THEMES[(THEMES.indexOf(themeNow()) + 1) % THEMES.length];
    document.documentElement.dataset.theme = next;
    document.cookie = `theme=${next}; path=/; max-age=${A_YEAR_S}; samesite=lax`;
    say(button, next);
  });
}

// What can be seen on a page, reckoned from the styles that the browser came to.
// Relative luminance and contrast ratio: W3C, Web Content Accessibility Guidelines 2.2,
// definitions "relative luminance" and "contrast ratio".
window.sight = (() => {
  const parsed = text => {
    const m = /^rgba?\(([^)]+)\)$/.exec(text);
    if (!m) return null;
    const [r, g, b, a = 1] = m[1].split(/[ ,/]+/).map(Number);
    return {r, g, b, a};
  };
  const over = (top, under) => ({r: top.r * top.a + under.r * (1 - top.a), g: top.g * top.a + under.g * (1 - top.a), b: top.b * top.a + under.b * (1 - top.a), a: 1});
  const luminance = ({r, g, b}) => {
    const [x, y, z] = [r, g, b].map(c => { c /= 255; return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4; });
    return 0.2126 * x + 0.7152 * y + 0.0722 * z;
  };
  const contrast = (a, b) => {
    const [x, y] = [luminance(a), luminance(b)].sort((p, q) => q - p);
    return (x + 0.05) / (y + 0.05);
  };
  // ground is the colour behind an element's own background, or with own, behind its letters.
  const ground = (e, own = true) => {
    const layers = [];
    for (let at = own ? e : e.parentElement; at; at = at.parentElement) {
      const sheet = at.tagName === 'svg' && at.querySelector(':scope > rect:first-of-type[fill]'); // a picture's own paper
      const colour = parsed(sheet && at.viewBox.baseVal.width === sheet.width.baseVal.value ? getComputedStyle(sheet).fill : getComputedStyle(at).backgroundColor);
      if (colour && colour.a > 0) { layers.push(colour); if (colour.a === 1) break; }
    }
    const canvas = getComputedStyle(document.documentElement).colorScheme.includes('dark') && matchMedia('(prefers-color-scheme: dark)').matches ? {r: 18, g: 18, b: 18, a: 1} : {r: 255, g: 255, b: 255, a: 1};
    return layers.reverse().reduce((under, top) => over(top, under), canvas);
  };
  const visible = e => {
    if (!e.checkVisibility({opacityProperty: true, visibilityProperty: true})) return false;
    if (e.closest('.unseen, noscript, title, desc')) return false;
    const r = e.getBoundingClientRect();
    return r.width > 1 && r.height > 1 && r.right > 0;
  };
  const named = e => `<${e.tagName.toLowerCase()} class="${e.getAttribute('class') || ''}"> ${(e.textContent || e.value || '').trim().slice(0, 40)}`;

  // letters lists texts that stand out less than least to one.
  const letters = least => {
    const low = [];
    let seen = 0;
    const check = (e, colour) => {
      if (!colour || !visible(e)) return;
      seen++;
      const under = ground(e), ratio = contrast(over(colour, under), under);
      if (ratio < least) low.push(`${named(e)}: ${ratio.toFixed(2)}`);
    };
    const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    for (let n; n = walk.nextNode();) {
      if (!n.data.trim()) continue;
      const style = getComputedStyle(n.parentElement);
      check(n.parentElement, parsed(n.parentElement.closest('svg') ? style.fill : style.color));
    }
    for (const e of document.querySelectorAll('input:not([type=radio], [type=checkbox], [type=file]), select, textarea')) check(e, parsed(getComputedStyle(e).color));
    return {seen, low};
  };

  // marks lists what marks a control or tells a state and stands out less than 3 to 1.
  const marks = () => {
    const low = [];
    let seen = 0;
    const told = (e, ratio) => { seen++; if (ratio < 3) low.push(`${named(e)}: ${ratio.toFixed(2)}`); };
    for (const e of document.querySelectorAll('button, .button, a.main, select, input:not([type=radio], [type=file]), textarea, .choice span, .pad, .tiles .row')) {
      if (!visible(e) || e.closest('.hidden-submit')) continue;
      const style = getComputedStyle(e), around = ground(e, false);
      const border = parsed(style.borderTopColor);
      told(e, Math.max(parseFloat(style.borderTopWidth) > 0 ? contrast(over(border, around), around) : 1, contrast(ground(e), around)));
    }
    for (const e of document.querySelectorAll('.sign > :not(.in), .icon *, .dial .leaf, .dial .wall, .screw .way, .screw .tip, .screw .slot:not(.then), .share rect')) {
      if (!e.checkVisibility()) continue;
      const style = getComputedStyle(e), around = ground(e.closest('svg'), true);
      told(e, Math.max(...[style.fill, style.stroke].map(parsed).filter(Boolean).map(c => contrast(over(c, around), around))));
    }
    for (const e of document.querySelectorAll('.sign .in')) told(e, contrast(parsed(getComputedStyle(e).stroke), parsed(getComputedStyle(e.parentElement).fill)));
    return {seen, low};
  };

  // small lists controls that a gloved finger would miss: lower or narrower than least CSS
  // pixels, and links within a text smaller than 24 (WCAG 2.2, 2.5.8).
  const small = least => {
    const found = [];
    const size = (e, r, need) => { if (Math.min(r.width, r.height) < need - 0.5) found.push(`${named(e)}: ${r.width.toFixed(0)} × ${r.height.toFixed(0)}`); };
    for (const e of document.querySelectorAll('a[href], button, input, select, textarea, summary, [tabindex="0"]')) {
      if (e.matches('.hidden-submit, .pan, .skip') || !e.checkVisibility()) continue;
      const place = e.matches('.camera') ? e.labels[0] : e.matches('.choice input') ? e.parentElement : e;
      const inText = e.matches('p a:not(.button, .main), li a:not(.row, .button, .main)');
      size(e, place.getBoundingClientRect(), inText ? 24 : least);
    }
    return found;
  };

  // cut lists what holds more than it shows, and does not pan.
  const cut = () => [...document.querySelectorAll('body *')].filter(e => e.checkVisibility() && !e.closest('svg, .unseen, .hidden-submit, .place') && !e.matches('.camera, input, select, .pan') && e.clientWidth > 0
    && e.scrollWidth > e.clientWidth + 1 && ['visible', 'hidden', 'clip'].includes(getComputedStyle(e).overflowX) && getComputedStyle(e).display !== 'inline').map(named);

  // beyond lists words of pictures that run over their edge, in the letters of this screen.
  const beyond = () => [...document.querySelectorAll('.picture svg')].filter(e => e.checkVisibility()).flatMap(svg => {
    const edge = svg.getBoundingClientRect();
    return [...svg.querySelectorAll('text')].filter(t => { const r = t.getBoundingClientRect(); return r.left < edge.left - 1 || r.right > edge.right + 1 || r.bottom > edge.bottom + 1; }).map(named);
  });

  // tiny lists words of pictures whose letters are below least CSS pixels.
  const tiny = least => [...document.querySelectorAll('.picture svg text')].filter(t => t.checkVisibility() && parseFloat(getComputedStyle(t).fontSize) * Math.hypot(t.getScreenCTM().a, t.getScreenCTM().b) < least).map(named);

  // alone lists signs of a verdict or standing with no word of it beside them.
  const alone = words => [...document.querySelectorAll('.sign')].filter(e => e.checkVisibility() && !words.some(w => (e.closest('li, tr') || e.closest('a, summary, p'))?.innerText.includes(w))).map(e => e.getAttribute('class') + ' in ' + named(e.parentElement));

  // moving lists what moves or may, by animation or transition, and smooth scrolling.
  const moving = () => [...document.getAnimations().map(a => 'an animation of ' + named(a.effect.target)),
    ...[...document.querySelectorAll('*')].filter(e => {
      const style = getComputedStyle(e);
      return style.animationName !== 'none' || style.transitionDuration.split(', ').some(d => d !== '0s') || style.scrollBehavior === 'smooth';
    }).map(named)];

  const panning = () => [...document.querySelectorAll('.pan')].filter(e => e.checkVisibility() && e.scrollWidth > e.clientWidth + 1).map(e => `${e.getAttribute('aria-label')}: ${e.scrollWidth} in ${e.clientWidth}`);

  return {contrast, parsed, ground, letters, marks, small, cut, beyond, tiny, alone, moving, panning};
})();

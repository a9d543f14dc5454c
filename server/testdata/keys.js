// Where the focus is, how it shows, and where it can go.
window.keys = (() => {
  const clean = text => (text || '').replace(/\s+/g, ' ').trim();
  // name is what a person would call a control.
  const name = e => clean(e.getAttribute('aria-label') || e.labels?.[0]?.innerText || e.innerText || e.textContent);
  const shown = e => e.matches('.choice input') ? e.nextElementSibling : e.matches('.camera') ? e.labels[0] : e;
  const describe = e => `<${e.tagName.toLowerCase()}${e.id ? '#' + e.id : ''}> ${e.href ? e.getAttribute('aria-label') || e.getAttribute('href') : name(e).slice(0, 50)}`;

  // stops are the controls in the order of the document, a group of radio buttons being one.
  const stops = () => {
    const all = [...document.querySelectorAll('a[href], button, input, select, textarea, summary, [tabindex="0"]')].filter(e => e.tabIndex >= 0 && !e.disabled && e.checkVisibility({visibilityProperty: true}));
    return all.filter(e => {
      if (e.type !== 'radio') return true;
      const group = all.filter(o => o.type === 'radio' && o.name === e.name);
      return e === (group.find(o => o.checked) || group[0]);
    });
  };

  // faults tells what is wrong with how the focus shows at the control that has it.
  const faults = () => {
    const e = document.activeElement, place = shown(e), found = [];
    if (!e || e === document.body || e.tagName === 'H1' || e.id === 'main') return found;
    const style = getComputedStyle(place);
    const around = sight.ground(place, false), outline = sight.parsed(style.outlineColor);
    const ratio = outline ? Math.max(sight.contrast(outline, around), sight.contrast(outline, sight.ground(place))) : 0;
    if (style.outlineStyle === 'none' || parseFloat(style.outlineWidth) < 2 || ratio < 3) found.push(`${describe(e)} shows no focus: outline ${style.outlineStyle} ${style.outlineWidth}, ${ratio.toFixed(1)}:1`);
    const r = place.getBoundingClientRect();
    if (e.closest('#stay, .skip, .action')) return found;
    const bar = document.getElementById('stay'), foot = document.querySelector('main > .action');
    const fixed = x => x && ['fixed', 'sticky'].includes(getComputedStyle(x).position);
    const top = fixed(bar) ? bar.getBoundingClientRect().bottom : 0, bottom = fixed(foot) ? foot.getBoundingClientRect().top : innerHeight;
    const whole = r.top >= top - 1 && r.bottom <= bottom + 1;
    const some = r.bottom > top + 10 && r.top < bottom - 10;
    if (r.height < 200 ? !whole : !some) found.push(`${describe(e)} is hidden: ${r.top.toFixed(0)} to ${r.bottom.toFixed(0)}, where ${top.toFixed(0)} to ${bottom.toFixed(0)} can be seen`);
    return found;
  };

  // order lists controls that come after one that stands below them on the page.
  const order = () => {
    const found = [];
    let before = null;
    for (const e of stops()) {
      if (e.closest('#stay, .skip, .action')) continue;
      const r = shown(e).getBoundingClientRect();
      if (before && (r.bottom <= before.top + 2 || r.top < before.bottom - 8 && r.bottom > before.top + 8 && r.left < before.left - 2)) found.push(`${describe(e)} comes after what stands below or right of it`);
      before = r;
    }
    return found;
  };
  const at = () => document.activeElement && document.activeElement !== document.body ? describe(document.activeElement) : '';
  return {name: () => document.activeElement ? name(document.activeElement) : '', at, stops: () => stops().map(describe), faults, order};
})();

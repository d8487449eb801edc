// What a sheet measures as it is shown. Evaluates to an object; the page is left as it was.
(() => {
  const short = (text) => text.trim().replace(/\s+/g, ' ').slice(0, 50);
  const shown = (element) => {
    const style = getComputedStyle(element);
    const box = element.getBoundingClientRect();
    return style.display !== 'none' && style.visibility !== 'hidden' && box.width > 0;
  };

  const colour = (text) => {
    const found = text.match(/rgba?\(([^)]*)\)/);
    if (!found) return null;
    const parts = found[1].split(/[ ,/]+/).map(Number);
    return {rgb: parts.slice(0, 3), alpha: parts.length > 3 ? parts[3] : 1};
  };
  const over = (top, alpha, ground) => top.map((c, i) => alpha * c + (1 - alpha) * ground[i]);
  // WCAG 2: relative luminance and contrast ratio.
  const luminance = (rgb) => {
    const [r, g, b] = rgb.map((c) => {
      const s = c / 255;
      return s <= 0.04045 ? s / 12.92 : ((s + 0.055) / 1.055) ** 2.4;
    });
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  };
  const contrast = (a, b) => {
    const [low, high] = [luminance(a), luminance(b)].sort((x, y) => x - y);
    return (high + 0.05) / (low + 0.05);
  };

  const dark = matchMedia('(prefers-color-scheme: dark)').matches;
  const canvas = dark ? [18, 18, 18] : [255, 255, 255];
  const groundOf = (element) => {
    const above = [];
    for (let e = element; e; e = e.parentElement) above.unshift(e);
    return above.reduce((ground, e) => {
      const c = colour(getComputedStyle(e).backgroundColor);
      return c ? over(c.rgb, c.alpha, ground) : ground;
    }, canvas);
  };
  const opacityOf = (element) => {
    let out = 1;
    for (let e = element; e; e = e.parentElement) out *= Number(getComputedStyle(e).opacity);
    return out;
  };
  const touches = (a, b) =>
    a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;

  // The grounds that a text of a picture stands on: the page's, and every filled shape below it.
  const groundsInPicture = (text, svg) => {
    const ground = groundOf(svg);
    const box = text.getBoundingClientRect();
    const out = [ground];
    for (const shape of svg.querySelectorAll('rect, circle, ellipse, polygon, path')) {
      if (!(shape.compareDocumentPosition(text) & Node.DOCUMENT_POSITION_FOLLOWING)) continue;
      const style = getComputedStyle(shape);
      const fill = style.fill === 'none' ? null : colour(style.fill);
      const b = shape.getBoundingClientRect();
      const small = {left: box.left + 2, right: box.right - 2, top: box.top + 3,
                     bottom: box.bottom - 3};
      if (fill && touches(small, b))
        out.push(over(fill.rgb, fill.alpha * Number(style.fillOpacity) * opacityOf(shape), ground));
    }
    return out;
  };

  const faint = [];
  const judge = (element, rgb, alpha, grounds, text) => {
    for (const ground of grounds) {
      const ratio = contrast(over(rgb, alpha, ground), ground);
      if (ratio < 4.5) faint.push(`${ratio.toFixed(2)} on <${element.tagName}> ${short(text)}`);
    }
  };
  const ownText = (element) =>
    [...element.childNodes].filter((n) => n.nodeType === 3).map((n) => n.data).join('').trim();

  let texts = 0;
  for (const element of document.body.querySelectorAll('*')) {
    const text = ownText(element);
    if (!text || !shown(element)) continue;
    texts += 1;
    const svg = element.closest('svg');
    const style = getComputedStyle(element);
    const ink = colour(svg ? style.fill : style.color);
    if (!ink) { faint.push(`no colour on <${element.tagName}> ${short(text)}`); continue; }
    const alpha = ink.alpha * opacityOf(element) * (svg ? Number(style.fillOpacity) : 1);
    const grounds = svg ? groundsInPicture(element, svg) : [groundOf(element)];
    judge(element, ink.rgb, alpha, grounds, text);
  }

  // Texts outside their picture, and texts on top of each other. A hair: below a
  // line 1.8 of the picture's units: so much of a letter's box is empty above its tallest stroke.
  const letters = [];
  for (const svg of document.querySelectorAll('svg')) {
    if (!shown(svg)) continue;
    const frame = svg.getBoundingClientRect();
    const hair = Math.max(1, frame.width / (svg.viewBox.baseVal.width || frame.width));
    const boxes = [...svg.querySelectorAll('text')].map((t) => [t, t.getBoundingClientRect()]);
    boxes.forEach(([text, box], i) => {
      if (box.left < frame.left - 0.5 || box.right > frame.right + 0.5 ||
          box.top < frame.top - 0.5 || box.bottom > frame.bottom + 0.5)
        letters.push(`outside its picture: ${short(text.textContent)}`);
      for (const [other, b] of boxes.slice(i + 1)) {
        const wide = Math.min(box.right, b.right) - Math.max(box.left, b.left);
        const tall = Math.min(box.bottom, b.bottom) - Math.max(box.top, b.top);
        if (wide > hair && tall > 1.8 * hair)
          letters.push(`${short(text.textContent)} and ${short(other.textContent)} overlap by ` +
                       `${wide.toFixed(1)} x ${tall.toFixed(1)} px`);
      }
    });
  }

  // Words and numbers that a line ends within: "136" and below it "0 mm" is another number. Longer
  // ones, and those in a longer row of letters without a space, may be broken.
  const broken = [];
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  for (let node = walker.nextNode(); node; node = walker.nextNode()) {
    const within = node.parentElement;
    if (!node.data.trim() || within.closest('svg') || !shown(within)) continue;
    const long = [...node.data.matchAll(/\S{25,}/gu)].map((m) => [m.index, m.index + m[0].length]);
    for (const found of node.data.matchAll(/[\p{L}\p{N}]+(?:[.,]\p{N}+)*/gu)) {
      if (found[0].length > 20) continue;
      if (long.some(([from, to]) => from <= found.index && found.index < to)) continue;
      const range = document.createRange();
      range.setStart(node, found.index);
      range.setEnd(node, found.index + found[0].length);
      const lines = new Set([...range.getClientRects()].map((box) => Math.round(box.top)));
      if (lines.size > 1) broken.push(`${found[0]} in "${short(node.data)}"`);
    }
  }

  // What sticks out on the right, to be named where the page scrolls sideways.
  const width = document.documentElement.clientWidth;
  const wide = [];
  for (const element of document.body.querySelectorAll('*')) {
    const box = element.getBoundingClientRect();
    if (box.right > width + 0.5 && shown(element))
      wide.push(`<${element.tagName.toLowerCase()}> ${short(element.textContent)}`);
  }
  const figures = [...document.querySelectorAll('[data-json]')]
    .map((e) => [e.textContent, e.getAttribute('data-json')]);
  const root = document.scrollingElement;
  return {texts, faint, letters, broken, wide, figures, dark,
          width, scrolls: Math.max(root.scrollWidth, document.body.scrollWidth) - width,
          words: document.body.innerText};
})()

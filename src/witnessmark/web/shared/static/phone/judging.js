// How good a picture is as evidence, by its pixels: how sharp its edges are for their contrast, what is
// burnt out, how dark it is, how large a character. It advises and forbids nothing.
export const LIMITS = {
  sharp: 0.003, // variance of the Laplacian over 16 times that of the picture. Drawn stampings, 120 px high
  // on grained sheet: 0.03 sharp, 0.004 blurred by 1 px, 0.0013 by 1.5 (tests/browser/test_judge.py)
  burnt: 0.06, // share of the region at 250 and more
  dark: 60, // mean of 0 to 255
  small: 40, // pixels of a line of characters: 12 px/mm on a character of 3.5 mm
};

export function measured({ width, height, rgba }, region) {
  const at = region ?? { left: 0, top: 0, width, height };
  const left = Math.max(0, Math.round(at.left)), top = Math.max(0, Math.round(at.top));
  const w = Math.min(width - left, Math.round(at.width)), h = Math.min(height - top, Math.round(at.height));
  const grey = new Float32Array(w * h);
  let sum = 0, squares = 0, burnt = 0;
  for (let y = 0; y < h; y += 1) for (let x = 0; x < w; x += 1) {
    const from = 4 * ((top + y) * width + left + x);
    const each = 0.299 * rgba[from] + 0.587 * rgba[from + 1] + 0.114 * rgba[from + 2];
    grey[y * w + x] = each; sum += each; squares += each * each; burnt += each >= 250 ? 1 : 0;
  }
  const many = Math.max(1, w * h), mean = sum / many, spread = Math.max(1, squares / many - mean * mean);
  let edges = 0, edgeSum = 0, counted = 0;
  for (let y = 1; y < h - 1; y += 1) for (let x = 1; x < w - 1; x += 1) {
    const n = y * w + x, found = 4 * grey[n] - grey[n - 1] - grey[n + 1] - grey[n - w] - grey[n + w];
    edges += found * found; edgeSum += found; counted += 1;
  }
  const average = edgeSum / Math.max(1, counted);
  return { sharp: (edges / Math.max(1, counted) - average * average) / spread / 16, burnt: burnt / many, dark: mean, size: region ? h : 0 };
}

export function advised(found, limits = LIMITS) {
  const told = [];
  if (found.size && found.size < limits.small) told.push({ what: "Small", do: "closer, until the number fills the frame" });
  if (found.dark < limits.dark) told.push({ what: "Dark", do: "more light, from the side" });
  if (found.burnt > limits.burnt) told.push({ what: "Glare", do: "light from the side, so that nothing shines white" });
  if (found.sharp < limits.sharp) told.push({ what: "Not sharp", do: "hold the phone still, and hold the scale in the same plane as the number" });
  return { ...found, told };
}

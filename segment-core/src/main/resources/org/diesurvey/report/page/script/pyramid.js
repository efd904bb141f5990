// The photograph: tiles for the viewer, and grey values for finding edges.

const Pyramid = (() => {
  const { tile_px: TILE, levels } = Survey.pyramid;
  const packed = new Map(); // texts of a level, unpacked when first needed
  const grey = new Map(); // grey values of tiles, null while a tile is being decoded

  const columns = level => Math.ceil(level.width / TILE);
  const level = halvings => levels.find(l => l.halvings === halvings);

  function address(l, column, row) {
    if (!packed.has(l.halvings)) {
      packed.set(l.halvings, readJson("tiles-" + l.halvings));
    }
    return "data:image/jpeg;base64," + packed.get(l.halvings)[row * columns(l) + column];
  }

  const Layer = L.GridLayer.extend({
    createTile(coords, done) {
      const cell = L.DomUtil.create("div", "photo-cell");
      const l = level(-coords.z);
      if (!l || coords.x < 0 || coords.y < 0 || coords.x >= columns(l)
          || coords.y >= Math.ceil(l.height / TILE)) {
        setTimeout(done, 0, null, cell);
        return cell;
      }
      const image = new Image();
      // Edge tiles are smaller than their cell; the cell may be drawn larger than the tile.
      image.style.width = 100 * Math.min(TILE, l.width - coords.x * TILE) / TILE + "%";
      image.style.height = 100 * Math.min(TILE, l.height - coords.y * TILE) / TILE + "%";
      image.alt = "";
      image.onload = image.onerror = () => done(null, cell);
      image.src = address(l, coords.x, coords.y);
      cell.append(image);
      return cell;
    },
  });

  function decode(l, column, row, key) {
    grey.set(key, null);
    const image = new Image();
    image.onload = () => {
      const canvas = document.createElement("canvas");
      canvas.width = image.width;
      canvas.height = image.height;
      const context = canvas.getContext("2d", { willReadFrequently: true });
      context.drawImage(image, 0, 0);
      const { data } = context.getImageData(0, 0, image.width, image.height);
      const values = new Uint8Array(image.width * image.height);
      for (let i = 0; i < values.length; i++) {
        // Luma of ITU-R BT.601, as the survey reads grey.
        values[i] = 0.299 * data[4 * i] + 0.587 * data[4 * i + 1] + 0.114 * data[4 * i + 2];
      }
      grey.set(key, { values, width: image.width, height: image.height });
      if (grey.size > 64) {
        grey.delete(grey.keys().next().value);
      }
    };
    image.src = address(l, column, row);
  }

  return {
    finest: levels[0].halvings,
    coarsest: levels[levels.length - 1].halvings,

    layer() {
      return new Layer({
        tileSize: TILE,
        minNativeZoom: -levels[levels.length - 1].halvings,
        maxNativeZoom: -levels[0].halvings,
        minZoom: -12,
        maxZoom: 5,
        noWrap: true,
        keepBuffer: 3,
        bounds: L.latLngBounds([0, 0], [-Survey.photo.height_px, Survey.photo.width_px]),
      });
    },

    // Paints a square of the photograph, or what a view of it holds, onto a canvas. The square lies
    // around (x, y), its sides along axes turned by an angle; wide and high, where they are given,
    // are its own in px of the photograph. Done once all tiles are there.
    paint(context, { x, y, side, turn = 0, wide = side, high = side, width, height }) {
      const across = width || context.canvas.width, down = height || context.canvas.height;
      const scale = across / wide;
      const wanted = Math.floor(Math.log2(1 / Math.min(1, scale)) + 0.01);
      const l = levels.find(v => v.halvings >= wanted) || levels[levels.length - 1];
      const reach = turn === 0 ? [wide / 2, high / 2] : [(wide + high) / 2, (wide + high) / 2];
      const f = 2 ** l.halvings, tile = TILE * f;
      const jobs = [];
      const from = v => Math.max(0, Math.floor(v / tile));
      for (let r = from(y - reach[1]); r < Math.ceil(l.height / TILE) && r * tile < y + reach[1]; r++) {
        for (let c = from(x - reach[0]); c < columns(l) && c * tile < x + reach[0]; c++) {
          jobs.push(new Promise(done => {
            const image = new Image();
            image.onload = () => {
              context.save();
              context.beginPath();
              context.rect(0, 0, across, down);
              context.clip();
              context.translate(across / 2, down / 2);
              context.rotate(-turn);
              context.scale(scale, scale);
              context.imageSmoothingEnabled = scale * f < 3;
              context.drawImage(image, c * tile - x, r * tile - y, image.width * f, image.height * f);
              context.restore();
              done();
            };
            image.onerror = done;
            image.src = address(l, c, r);
          }));
        }
      }
      return Promise.all(jobs);
    },

    // The grey value at a place of the photograph in a level, bilinear; NaN where it is not decoded
    // yet (decoding starts then) or outside.
    greyAt(halvings, x, y) {
      const l = level(halvings);
      const px = x / 2 ** halvings - 0.5, py = y / 2 ** halvings - 0.5;
      const x0 = Math.floor(px), y0 = Math.floor(py);
      const fx = px - x0, fy = py - y0;
      return (1 - fy) * ((1 - fx) * value(l, x0, y0) + fx * value(l, x0 + 1, y0))
        + fy * ((1 - fx) * value(l, x0, y0 + 1) + fx * value(l, x0 + 1, y0 + 1));
    },
  };

  function value(l, x, y) {
    if (x < 0 || y < 0 || x >= l.width || y >= l.height) {
      return NaN;
    }
    const column = Math.floor(x / TILE), row = Math.floor(y / TILE);
    const key = l.halvings + ":" + column + ":" + row;
    const tile = grey.get(key);
    if (tile) {
      return tile.values[(y - row * TILE) * tile.width + (x - column * TILE)];
    }
    if (tile === undefined) {
      decode(l, column, row, key);
    }
    return NaN;
  }
})();

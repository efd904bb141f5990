#!/usr/bin/env python3
"""What the general-purpose recipe reaches on the same dies.

Multi-scale basic features and a random forest, as the documentation of scikit-image shows them
("Trainable segmentation using local features and random forests"): trained on drawn dies, scored on
the dies rendered from open layouts with the definition of `diesurvey score`. Debian packages:
python3-skimage python3-sklearn.

    segment-cli/bin/diesurvey draw --seed 1000 --count 60 --megapixels 4 --out out/drawn
    python3 segment-cli/src/benchmark/general_recipe.py out/drawn ../shared/data/open-dies

The recipe knows no scale; all photographs are resampled to 1 um per pixel first, which helps it.
"""

import json
import sys
import time
from functools import partial
from pathlib import Path

import numpy as np
from skimage import feature, io, transform
from sklearn.ensemble import RandomForestClassifier

UM_PER_PX = 1.0
SAMPLES_PER_DIE = 8000
CLASSES = {1: "memory array", 2: "hard macro", 3: "logic", 4: "pad ring"}
FEATURES = partial(
    feature.multiscale_basic_features,
    intensity=True,
    edges=False,
    texture=True,
    sigma_min=1,
    sigma_max=16,
    channel_axis=-1,
)


def dies(folder):
    """Photograph at 1 um per pixel and the label map in the same frame, die by die."""
    for sidecar in sorted(Path(folder).glob("*.json")):
        truth = json.loads(sidecar.read_text(encoding="utf-8"))
        labels = sidecar.with_name(sidecar.stem + "_labels.png")
        photo = next(
            (p for p in (sidecar.with_suffix(s) for s in (".jpg", ".png")) if p.exists()), None
        )
        if photo is None or not labels.exists() or "um_per_px" not in truth:
            continue
        image = io.imread(photo)
        image = np.dstack([image] * 3) if image.ndim == 2 else image[:, :, :3]
        label = io.imread(labels)
        ratio = truth["um_per_px"] / UM_PER_PX
        shape = [max(1, round(s * ratio)) for s in label.shape]
        image = transform.resize(image, shape, anti_aliasing=ratio < 1)
        rows = (np.arange(shape[0]) + 0.5) * label.shape[0] / shape[0]
        columns = (np.arange(shape[1]) + 0.5) * label.shape[1] / shape[1]
        yield sidecar.stem, image, label[rows.astype(int)][:, columns.astype(int)]


def train(folder):
    generator = np.random.default_rng(0)
    samples, answers, count = [], [], 0
    for _, image, label in dies(folder):
        found = FEATURES(image).reshape(label.size, -1)
        flat = label.ravel()
        for value in (0, *CLASSES):
            at = np.flatnonzero(flat == value)
            if at.size:
                at = generator.choice(at, min(SAMPLES_PER_DIE // 5, at.size), replace=False)
                samples.append(found[at])
                answers.append(flat[at])
        count += 1
    forest = RandomForestClassifier(
        n_estimators=50, n_jobs=-1, max_depth=10, max_samples=0.05, random_state=0
    )
    forest.fit(np.concatenate(samples), np.concatenate(answers))
    return forest, count


def overlap(label, found):
    """Intersection over union of each class that the truth holds, over the scored pixels."""
    scored = label != 255
    out = {}
    for value, name in CLASSES.items():
        true = scored & (label == value)
        if true.any():
            both = (true & (found == value)).sum()
            either = (scored & ((label == value) | (found == value))).sum()
            out[name] = both / either
    return out


def main():
    if len(sys.argv) != 3:
        sys.exit(__doc__)
    start = time.time()
    forest, count = train(sys.argv[1])
    print(f"trained on {count} dies in {time.time() - start:.0f} s")
    means = []
    for name, image, label in dies(sys.argv[2]):
        start = time.time()
        found = forest.predict(FEATURES(image).reshape(label.size, -1)).reshape(label.shape)
        scores = overlap(label, found)
        means.append(np.mean(list(scores.values())))
        each = ", ".join(f"{k} {v:.3f}" for k, v in scores.items())
        print(f"{name}: mean IoU {means[-1]:.3f} ({each}), {time.time() - start:.1f} s")
    print(f"mean of the dies: {np.mean(means):.3f}")


if __name__ == "__main__":
    main()

package org.diesurvey.synthetic;

/** What a drawn shape consists of; each has its own coverage plane. */
enum Layer {
  /** Diffused silicon, the subject of the photograph. */
  DIFFUSION,
  /** Polysilicon left by the preparation, or the channel it has left behind. */
  POLY,
  /** Contact plugs or their holes. */
  CONTACT,
  /** Wells, implants and pad imprints: broad, faint, signed. */
  WELL,
  /** Metal left by the preparation: covers what lies below. */
  METAL
}

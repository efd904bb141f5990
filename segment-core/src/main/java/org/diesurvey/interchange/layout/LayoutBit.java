package org.diesurvey.interchange.layout;

import java.util.Arrays;
import java.util.Optional;
import java.util.stream.Collectors;

/** Layers of a layout that a photograph of the diffusion layer shows, each a bit of a mask. */
public enum LayoutBit {
  /** Active area with its taps. */
  DIFFUSION(1, "diffusion", "diff"),
  /** Gates, resistors, plates. */
  POLYSILICON(2, "polysilicon", "poly"),
  /** Wells of n type. */
  N_WELL(4, "n-well", "well"),
  /** Contacts to diffusion or polysilicon. */
  CONTACT(8, "contact", "cont"),
  /** Where devices of higher voltage have a thicker oxide. */
  THICK_OXIDE(16, "thick-oxide", "thick"),
  /** Where p-type diffusion is implanted. */
  P_IMPLANT(32, "p-implant", "pimp");

  private final int bit;
  private final String word;
  private final String member;

  LayoutBit(int bit, String word, String member) {
    this.bit = bit;
    this.word = word;
    this.member = member;
  }

  /** Its value in a pixel of a mask. */
  public int bit() {
    return bit;
  }

  /** Its name in layer maps. */
  public String word() {
    return word;
  }

  /** Its name among the coverages of a record. */
  String member() {
    return member;
  }

  static Optional<LayoutBit> of(String word) {
    return Arrays.stream(values()).filter(b -> b.word.equalsIgnoreCase(word)).findFirst();
  }

  static String words() {
    return Arrays.stream(values()).map(LayoutBit::word).collect(Collectors.joining(", "));
  }
}

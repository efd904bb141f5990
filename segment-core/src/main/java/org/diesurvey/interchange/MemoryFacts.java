package org.diesurvey.interchange;

import java.util.OptionalInt;
import org.diesurvey.Supported;
import org.diesurvey.estimates.MemoryKind;

/**
 * What a person knows of a memory array beyond its outline.
 *
 * @param kind what stores the bits
 * @param ports 1 or 2, if stated
 */
@Supported
public record MemoryFacts(MemoryKind kind, OptionalInt ports) {}

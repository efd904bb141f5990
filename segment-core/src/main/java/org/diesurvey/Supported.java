package org.diesurvey;

import java.lang.annotation.Documented;
import java.lang.annotation.ElementType;
import java.lang.annotation.Retention;
import java.lang.annotation.RetentionPolicy;
import java.lang.annotation.Target;

/**
 * A type that programs of others may rest on: it changes by the rules of semantic versions
 * (semver.org, 2.0.0), while all other public types may change with any version. A method that
 * takes or gives a type without this mark is as free to change as that type.
 */
@Documented
@Retention(RetentionPolicy.CLASS)
@Target(ElementType.TYPE)
public @interface Supported {}

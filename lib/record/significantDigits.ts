/** Significant digits of a standard uncertainty that count when first order is judged, and must be steady (JCGM 100:2008, 7.2.6: two at most are usual). */
export const significantDigits = 2;

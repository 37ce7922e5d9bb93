/**
 * Minutes from treating a low to the recheck: Standards of Care in Diabetes 2024, section 6 (Diabetes Care
 * 2024;47(Suppl 1):S111-S125). The person's own plan goes before it.
 */
export const RECHECK_AFTER_MINUTES = 15

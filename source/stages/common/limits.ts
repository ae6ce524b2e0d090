/**
 * Where turns stop being the answer. Common practice, no source: a claw
 * screw of some 30 mm gives about ten millimetres either way before it runs
 * out or sits in too little wood, and a spring is neither to hang loose nor
 * to be drawn near its coils' end. Assumed; each bridge has its own.
 */
export const clawTravelMm = 10;
export const springForceRangeN = [12, 90] as const;

/** The plate counts as standing as wished within this much at the tail, mm. */
export const plateToleranceMm = 0.3;

/** Below this pull a string is felt as slack, N. Common practice, no source; players differ. */
export const leastPlayableN = 45;

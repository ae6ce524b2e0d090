/**
 * What reaches the belief, in physical terms: deeds whose size nobody knows
 * exactly, and readings. `index` counts from 0 = thinnest string.
 */
export type Happening =
	/** A peg or fine tuner was turned; how far shows in the reading after it. `aimCents` if a hand meant to stop there. */
	| {readonly kind: 'turned'; readonly index: number; readonly aimCents?: number}
	/**
	 * Open pitch, cents of target, positive sharp; `sdCents` if better or worse known than usual; `heardSdCents`
	 * of the fit alone if it was heard and not read off a tuner.
	 */
	| {
			readonly kind: 'pitch';
			readonly index: number;
			readonly cents: number;
			readonly sdCents?: number;
			readonly heardSdCents?: number;
	  }
	/** How far the claw springs stood stretched as the guitar came in, metres of coil body; see `stretchMeasured`. */
	| {readonly kind: 'stretch'; readonly stretchM: number}
	/** Tail height above level, metres. */
	| {readonly kind: 'tail'; readonly tailM: number}
	/** Both claw screws advanced by this mean, metres, positive = tighter; `sdM` if they were turned until a string sounded right, and this is only about how far. */
	| {readonly kind: 'claw'; readonly advanceM: number; readonly sdM?: number}
	| {readonly kind: 'springs'; readonly springs: number}
	/** As the plate stood, or brought to this height of the tail first, metres above level. */
	| {readonly kind: 'support-in'; readonly tailM?: number}
	| {readonly kind: 'support-out'}
	| {readonly kind: 'clamped'}
	| {readonly kind: 'unclamped'}
	| {readonly kind: 'slack'; readonly index: number}
	| {readonly kind: 'off'; readonly index: number}
	/** A new string put on, still slack. */
	| {readonly kind: 'fitted'; readonly index: number}
	/** Pulled by hand to take the give out. */
	| {readonly kind: 'pulled'; readonly index: number}
	| {readonly kind: 'slipped'; readonly index: number}
	/** Saddle moved, metres, positive = longer. */
	| {readonly kind: 'saddle'; readonly index: number; readonly travelM: number}
	/** Dive, pull-up or bend and back. */
	| {readonly kind: 'arm'};

/**
 * What is known of an instrument before anything is heard: nominal values,
 * in SI. What differs from guitar to guitar is the belief's business.
 */
export interface InstrumentModel {
	/** Thinnest first. */
	readonly strings: readonly ModelString[];
	/** Springs fitted. */
	readonly springs: number;
	/** Knife edge to the tail edge where heights are measured, metres. */
	readonly tailArmM: number;
}

export interface ModelString {
	readonly wound: boolean;
	/** E times core area, nominal, newtons. */
	readonly axialStiffnessN: number;
	/** Unstretched, nominal, kg/m. */
	readonly massPerLengthKgPerM: number;
	/** Saddle to nut, plate level, metres. */
	readonly speakingLengthM: number;
	/** Nut to peg, metres: shares the stretch while the nut is open. */
	readonly behindNutM: number;
	readonly targetHz: number;
	/** Minimum breaking load of the core, newtons. */
	readonly breakingLoadN: number;
}

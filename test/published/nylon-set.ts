/**
 * The normal-tension nylon set on a 650 mm scale, as printed by M. B. Anderson
 * and R. G. Beausoleil, "Classical guitar intonation and compensation: the
 * well-tempered guitar", J. Acoust. Soc. Am. 156(1), 683 (2024). Their tables
 * hold 36 strings of six sets; these six rows are the ones printed in our notes.
 * Nut 1 mm above the frets, saddle 4 mm above the nut, frets 1 to 12.
 */
export const nylonSet = [
	{
		note: 'E4',
		frequencyHz: 329.628,
		radiusMm: 0.356,
		massGPerM: 0.374,
		tensionN: 68.6,
		sensitivity: 23.6,
		stringConstant: 48.2,
		openStiffness: 0.0019,
		modulusGPa: 8.33,
		saddleMm: 1.48,
		nutMm: -0.36,
		rmsCents: 0.143,
	},
	{
		note: 'B3',
		frequencyHz: 246.942,
		radiusMm: 0.409,
		massGPerM: 0.505,
		tensionN: 52.0,
		sensitivity: 23.8,
		stringConstant: 48.7,
		openStiffness: 0.0022,
		modulusGPa: 4.82,
		saddleMm: 1.69,
		nutMm: -0.36,
		rmsCents: 0.145,
	},
	{
		note: 'G3',
		frequencyHz: 195.998,
		radiusMm: 0.512,
		massGPerM: 0.836,
		tensionN: 54.2,
		sensitivity: 28.8,
		stringConstant: 58.6,
		openStiffness: 0.00301,
		modulusGPa: 3.87,
		saddleMm: 2.33,
		nutMm: -0.43,
		rmsCents: 0.177,
	},
	{
		note: 'D3',
		frequencyHz: 146.832,
		radiusMm: 0.368,
		massGPerM: 1.92,
		tensionN: 70.0,
		sensitivity: 22.5,
		stringConstant: 46.0,
		openStiffness: 0.00192,
		modulusGPa: 7.56,
		saddleMm: 1.49,
		nutMm: -0.34,
		rmsCents: 0.137,
	},
	{
		note: 'A2',
		frequencyHz: 110,
		radiusMm: 0.445,
		massGPerM: 3.289,
		tensionN: 67.3,
		sensitivity: 23.9,
		stringConstant: 48.7,
		openStiffness: 0.00239,
		modulusGPa: 5.28,
		saddleMm: 1.83,
		nutMm: -0.36,
		rmsCents: 0.146,
	},
	{
		note: 'E2',
		frequencyHz: 82.407,
		radiusMm: 0.546,
		massGPerM: 5.47,
		tensionN: 62.8,
		sensitivity: 28.6,
		stringConstant: 58.2,
		openStiffness: 0.00321,
		modulusGPa: 3.9,
		saddleMm: 2.46,
		nutMm: -0.43,
		rmsCents: 0.177,
	},
] as const;

/** Geometry of the paper's tables. */
export const nylonBoard = {scaleLengthM: 0.65, nutHeightM: 0.001, saddleHeightM: 0.004} as const;

/** The paper's prototype string. */
export const prototypeString = {stringConstant: 51, openStiffness: 0.00236} as const;

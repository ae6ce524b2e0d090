/** The package carries no types; only what is used here is declared. */
declare module 'fourier-transform' {
	/** Unnormalised DFT of a real signal whose length is a power of two: [re, im], bins 0 to N/2. The arrays are reused by the next call of the same length. */
	export function fft(input: Float32Array | Float64Array): [Float64Array, Float64Array];
}

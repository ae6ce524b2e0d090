import {toAscii} from '../units/ascii.ts';

/**
 * The same stream, writing ASCII only. What numbers, words and pictures bring
 * along (minus, degree sign, quotes) is changed last and in one place; escape
 * codes are ASCII already.
 */
export function asciiStream<Stream extends NodeJS.WriteStream>(stream: Stream): Stream {
	return new Proxy(stream, {
		get(target, property) {
			const value: unknown = Reflect.get(target, property, target);
			if (typeof value !== 'function') return value;
			if (property !== 'write') return value.bind(target);
			return (data: unknown, ...rest: unknown[]) =>
				Reflect.apply(value, target, [typeof data === 'string' ? toAscii(data) : data, ...rest]);
		},
	});
}

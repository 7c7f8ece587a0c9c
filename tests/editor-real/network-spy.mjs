/**
 * Loaded into every Node process of the VS Code server by NODE_OPTIONS: writes down who it is loaded into, and each
 * connection that is opened to anywhere but this machine.
 */
import dns from 'node:dns';
import { appendFileSync } from 'node:fs';
import { syncBuiltinESMExports } from 'node:module';
import net from 'node:net';

const log = process.env.CAGE_NETWORK_LOG;
const note = (text) => {
  if (log) appendFileSync(log, `${String(process.pid)} ${text}\n`);
};
note(process.argv.slice(1).join(' '));

const LOCAL = new Set(['localhost', '127.0.0.1', '::1', '0.0.0.0', '::']);

const { connect } = net.Socket.prototype;
net.Socket.prototype.connect = function (...args) {
  const [first, second] = Array.isArray(args[0]) ? args[0] : args;
  const options = typeof first === 'object' && first !== null ? first : { port: first, host: second };
  const host = options.path ? null : (options.host ?? 'localhost');
  if (typeof host === 'string' && !LOCAL.has(host)) note(`-> ${host}:${String(options.port)}`);
  return connect.apply(this, args);
};

const { lookup } = dns;
dns.lookup = function (host, ...rest) {
  if (!LOCAL.has(host)) note(`-> lookup ${String(host)}`);
  return lookup.call(this, host, ...rest);
};
syncBuiltinESMExports();

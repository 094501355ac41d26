import { Counter, collectDefaultMetrics, Gauge, Histogram, Registry } from 'prom-client';

/** Counts in the Prometheus text format. Labels hold routes and states, never a link, a person or an address. */
export interface Metrics {
  readonly registry: Registry;
  readonly requests: Counter<'method' | 'route' | 'status'>;
  readonly seconds: Histogram<'method' | 'route'>;
  readonly answers: Counter;
  readonly watching: Gauge;
  readonly deliveries: Counter<'outcome'>;
  readonly views: Counter<'from'>;
}

export function createMetrics(withProcess = false): Metrics {
  const registry = new Registry();
  const registers = [registry];
  if (withProcess) collectDefaultMetrics({ register: registry });
  return {
    registry,
    requests: new Counter({
      name: 'gaugewalk_http_requests_total',
      help: 'Requests answered',
      labelNames: ['method', 'route', 'status'],
      registers,
    }),
    seconds: new Histogram({
      name: 'gaugewalk_http_request_seconds',
      help: 'Time to answer a request',
      labelNames: ['method', 'route'],
      buckets: [0.005, 0.02, 0.05, 0.1, 0.25, 0.5, 1, 2.5, 10],
      registers,
    }),
    answers: new Counter({ name: 'gaugewalk_answers_total', help: 'Answers stored', registers }),
    watching: new Gauge({
      name: 'gaugewalk_watchers',
      help: 'Live connections on cases',
      registers,
    }),
    deliveries: new Counter({
      name: 'gaugewalk_webhook_deliveries_total',
      help: 'Webhook deliveries tried',
      labelNames: ['outcome'],
      registers,
    }),
    views: new Counter({
      name: 'gaugewalk_views_total',
      help: 'Views by where they came from',
      labelNames: ['from'],
      registers,
    }),
  };
}

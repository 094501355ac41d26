# The server in one image. Data lives in /data (SQLite) or in the database named by DATABASE_URL; see docs/running.md.

FROM node:20.20.2-bookworm AS build
WORKDIR /app
COPY . .
# `npm ci` compiles what has no prebuilt binary and builds `dist`; afterwards only what runs is kept.
RUN npm ci && npm prune --omit=dev

FROM node:20.20.2-bookworm-slim
ENV NODE_ENV=production \
    HOST=0.0.0.0 \
    PORT=8080 \
    DATA_DIR=/data
WORKDIR /app
COPY --from=build /app/package.json ./
COPY --from=build /app/bin ./bin
COPY --from=build /app/rules ./rules
COPY --from=build /app/dist ./dist
COPY --from=build /app/node_modules ./node_modules
RUN mkdir /data && chown node:node /data
USER node
VOLUME /data
EXPOSE 8080
STOPSIGNAL SIGTERM
HEALTHCHECK --interval=30s --timeout=5s --start-period=20s \
  CMD ["node", "-e", "fetch(`http://127.0.0.1:${process.env.PORT}/health`).then((r) => process.exit(r.ok ? 0 : 1), () => process.exit(1))"]
CMD ["node", "bin/gaugewalk.js", "serve"]

#!/bin/sh
# Runs once, in a new database: the app's role owns no table, so it cannot switch off what keeps
# the records append-only.
set -eu
psql -v ON_ERROR_STOP=1 -U "$POSTGRES_USER" -d "$POSTGRES_DB" -v password="$APP_PASSWORD" <<'SQL'
create role bucket_app login password :'password';
SQL

CREATE TABLE "firing_costs" (
	"id" uuid PRIMARY KEY NOT NULL,
	"firing_id" uuid NOT NULL,
	"energy" text NOT NULL,
	"amount" numeric(12, 3) NOT NULL,
	"unit" text NOT NULL,
	"price" numeric(12, 4),
	"currency" text,
	"by" uuid NOT NULL,
	"at" timestamp (3) with time zone NOT NULL,
	CONSTRAINT "firing_costs_energy_known" CHECK ("firing_costs"."energy" in ('electricity', 'gas', 'oil', 'wood')),
	CONSTRAINT "firing_costs_unit_known" CHECK ("firing_costs"."unit" in ('kWh', 'm3', 'kg', 'l')),
	CONSTRAINT "firing_costs_amount_possible" CHECK ("firing_costs"."amount" between 0 and 1000000),
	CONSTRAINT "firing_costs_price_payable" CHECK ("firing_costs"."price" between 0 and 10000000),
	CONSTRAINT "firing_costs_currency_shape" CHECK ("firing_costs"."currency" ~ '^[A-Z]{3}$'),
	CONSTRAINT "firing_costs_price_has_currency" CHECK (("firing_costs"."price" is null) = ("firing_costs"."currency" is null))
);
--> statement-breakpoint
CREATE TABLE "firing_logs" (
	"id" uuid PRIMARY KEY NOT NULL,
	"firing_id" uuid NOT NULL,
	"received" integer NOT NULL,
	"kept" integer NOT NULL,
	"drawn" jsonb NOT NULL,
	"by" uuid NOT NULL,
	"at" timestamp (3) with time zone NOT NULL,
	CONSTRAINT "firing_logs_received_counts" CHECK ("firing_logs"."received" between 1 and 2000000),
	CONSTRAINT "firing_logs_kept_counts" CHECK ("firing_logs"."kept" between 1 and "firing_logs"."received"),
	CONSTRAINT "firing_logs_drawn_few" CHECK (jsonb_array_length("firing_logs"."drawn") between 1 and 4000)
);
--> statement-breakpoint
CREATE TABLE "firing_readings" (
	"log_id" uuid PRIMARY KEY NOT NULL,
	"packed" "bytea" NOT NULL
);
--> statement-breakpoint
CREATE TABLE "firing_withdrawals" (
	"firing_id" uuid PRIMARY KEY NOT NULL,
	"why" text NOT NULL,
	"by" uuid NOT NULL,
	"at" timestamp (3) with time zone NOT NULL,
	CONSTRAINT "firing_withdrawals_why_length" CHECK (char_length("firing_withdrawals"."why") between 1 and 1000)
);
--> statement-breakpoint
CREATE TABLE "pair_reviews" (
	"id" uuid PRIMARY KEY NOT NULL,
	"pair_id" uuid NOT NULL,
	"verdict" text NOT NULL,
	"for" text NOT NULL,
	"reasons" text NOT NULL,
	"looked_at" jsonb NOT NULL,
	"by" uuid NOT NULL,
	"at" timestamp (3) with time zone NOT NULL,
	CONSTRAINT "pair_reviews_verdict_known" CHECK ("pair_reviews"."verdict" in ('approve', 'object', 'remark')),
	CONSTRAINT "pair_reviews_for_known" CHECK ("pair_reviews"."for" in ('functional', 'decorative')),
	CONSTRAINT "pair_reviews_reasons_length" CHECK (char_length("pair_reviews"."reasons") between 1 and 4000)
);
--> statement-breakpoint
CREATE TABLE "pairs" (
	"id" uuid PRIMARY KEY NOT NULL,
	"over_id" uuid NOT NULL,
	"under_id" uuid NOT NULL,
	"about" text NOT NULL,
	"added_by" uuid NOT NULL,
	"added_at" timestamp (3) with time zone NOT NULL,
	CONSTRAINT "pairs_once" UNIQUE("over_id","under_id"),
	CONSTRAINT "pairs_of_two" CHECK ("pairs"."over_id" <> "pairs"."under_id"),
	CONSTRAINT "pairs_about_length" CHECK (char_length("pairs"."about") between 0 and 2000)
);
--> statement-breakpoint
CREATE TABLE "test_photos" (
	"id" uuid PRIMARY KEY NOT NULL,
	"test_id" uuid NOT NULL,
	"sha256" text NOT NULL,
	"taken" text NOT NULL,
	"alt" text NOT NULL,
	"by" uuid NOT NULL,
	"at" timestamp (3) with time zone NOT NULL,
	CONSTRAINT "test_photos_taken_known" CHECK ("test_photos"."taken" in ('before', 'after')),
	CONSTRAINT "test_photos_alt_length" CHECK (char_length("test_photos"."alt") between 0 and 500)
);
--> statement-breakpoint
CREATE TABLE "test_reports" (
	"test_id" uuid NOT NULL,
	"sha256" text NOT NULL,
	"size" integer NOT NULL,
	"bytes" "bytea" NOT NULL,
	"by" uuid NOT NULL,
	"at" timestamp (3) with time zone NOT NULL,
	CONSTRAINT "test_reports_test_id_sha256_pk" PRIMARY KEY("test_id","sha256"),
	CONSTRAINT "test_reports_sha256_is_digest" CHECK ("test_reports"."sha256" ~ '^[0-9a-f]{64}$'),
	CONSTRAINT "test_reports_size_possible" CHECK ("test_reports"."size" between 1 and 20971520)
);
--> statement-breakpoint
CREATE TABLE "tile_colours" (
	"id" uuid PRIMARY KEY NOT NULL,
	"tile_id" uuid NOT NULL,
	"lightness" double precision NOT NULL,
	"a" double precision NOT NULL,
	"b" double precision NOT NULL,
	"from" text NOT NULL,
	"photo_id" uuid,
	"by" uuid NOT NULL,
	"at" timestamp (3) with time zone NOT NULL,
	CONSTRAINT "tile_colours_lightness_possible" CHECK ("tile_colours"."lightness" between 0 and 100),
	CONSTRAINT "tile_colours_a_possible" CHECK ("tile_colours"."a" between -160 and 160),
	CONSTRAINT "tile_colours_b_possible" CHECK ("tile_colours"."b" between -160 and 160),
	CONSTRAINT "tile_colours_from_known" CHECK ("tile_colours"."from" in ('instrument', 'camera')),
	CONSTRAINT "tile_colours_camera_has_picture" CHECK ("tile_colours"."photo_id" is null or "tile_colours"."from" = 'camera')
);
--> statement-breakpoint
ALTER TABLE "studios" ADD COLUMN "jurisdictions" text[] DEFAULT '{}' NOT NULL;--> statement-breakpoint
ALTER TABLE "studios" ADD COLUMN "colour_tolerance" numeric(5, 2);--> statement-breakpoint
ALTER TABLE "tiles" ADD COLUMN "transparency" text;--> statement-breakpoint
ALTER TABLE "tiles" ADD COLUMN "movement" text;--> statement-breakpoint
ALTER TABLE "tiles" ADD COLUMN "application" text;--> statement-breakpoint
ALTER TABLE "tiles" ADD COLUMN "seconds" numeric(5, 1);--> statement-breakpoint
ALTER TABLE "tiles" ADD COLUMN "coats" smallint;--> statement-breakpoint
ALTER TABLE "tiles" ADD COLUMN "specific_gravity" numeric(5, 3);--> statement-breakpoint
ALTER TABLE "tiles" ADD COLUMN "beside" text DEFAULT '' NOT NULL;--> statement-breakpoint
ALTER TABLE "tiles" ADD COLUMN "bucket_id" uuid;--> statement-breakpoint
ALTER TABLE "firing_costs" ADD CONSTRAINT "firing_costs_firing_id_firings_id_fk" FOREIGN KEY ("firing_id") REFERENCES "public"."firings"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "firing_costs" ADD CONSTRAINT "firing_costs_by_people_id_fk" FOREIGN KEY ("by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "firing_logs" ADD CONSTRAINT "firing_logs_firing_id_firings_id_fk" FOREIGN KEY ("firing_id") REFERENCES "public"."firings"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "firing_logs" ADD CONSTRAINT "firing_logs_by_people_id_fk" FOREIGN KEY ("by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "firing_readings" ADD CONSTRAINT "firing_readings_log_id_firing_logs_id_fk" FOREIGN KEY ("log_id") REFERENCES "public"."firing_logs"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "firing_withdrawals" ADD CONSTRAINT "firing_withdrawals_firing_id_firings_id_fk" FOREIGN KEY ("firing_id") REFERENCES "public"."firings"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "firing_withdrawals" ADD CONSTRAINT "firing_withdrawals_by_people_id_fk" FOREIGN KEY ("by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "pair_reviews" ADD CONSTRAINT "pair_reviews_pair_id_pairs_id_fk" FOREIGN KEY ("pair_id") REFERENCES "public"."pairs"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "pair_reviews" ADD CONSTRAINT "pair_reviews_by_people_id_fk" FOREIGN KEY ("by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "pairs" ADD CONSTRAINT "pairs_over_id_revisions_id_fk" FOREIGN KEY ("over_id") REFERENCES "public"."revisions"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "pairs" ADD CONSTRAINT "pairs_under_id_revisions_id_fk" FOREIGN KEY ("under_id") REFERENCES "public"."revisions"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "pairs" ADD CONSTRAINT "pairs_added_by_people_id_fk" FOREIGN KEY ("added_by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "test_photos" ADD CONSTRAINT "test_photos_test_id_tests_id_fk" FOREIGN KEY ("test_id") REFERENCES "public"."tests"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "test_photos" ADD CONSTRAINT "test_photos_sha256_pictures_sha256_fk" FOREIGN KEY ("sha256") REFERENCES "public"."pictures"("sha256") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "test_photos" ADD CONSTRAINT "test_photos_by_people_id_fk" FOREIGN KEY ("by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "test_reports" ADD CONSTRAINT "test_reports_test_id_tests_id_fk" FOREIGN KEY ("test_id") REFERENCES "public"."tests"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "test_reports" ADD CONSTRAINT "test_reports_by_people_id_fk" FOREIGN KEY ("by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "tile_colours" ADD CONSTRAINT "tile_colours_tile_id_tiles_id_fk" FOREIGN KEY ("tile_id") REFERENCES "public"."tiles"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "tile_colours" ADD CONSTRAINT "tile_colours_photo_id_photos_id_fk" FOREIGN KEY ("photo_id") REFERENCES "public"."photos"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "tile_colours" ADD CONSTRAINT "tile_colours_by_people_id_fk" FOREIGN KEY ("by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
CREATE INDEX "firing_costs_of_firing" ON "firing_costs" USING btree ("firing_id","id");--> statement-breakpoint
CREATE INDEX "firing_logs_of_firing" ON "firing_logs" USING btree ("firing_id","id");--> statement-breakpoint
CREATE INDEX "pair_reviews_of_pair" ON "pair_reviews" USING btree ("pair_id","id");--> statement-breakpoint
CREATE INDEX "pairs_under" ON "pairs" USING btree ("under_id");--> statement-breakpoint
CREATE INDEX "test_photos_of_test" ON "test_photos" USING btree ("test_id","id");--> statement-breakpoint
CREATE INDEX "test_photos_of_picture" ON "test_photos" USING btree ("sha256");--> statement-breakpoint
CREATE INDEX "tile_colours_of_tile" ON "tile_colours" USING btree ("tile_id","id");--> statement-breakpoint
ALTER TABLE "tiles" ADD CONSTRAINT "tiles_bucket_id_buckets_id_fk" FOREIGN KEY ("bucket_id") REFERENCES "public"."buckets"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
CREATE INDEX "tiles_of_bucket" ON "tiles" USING btree ("bucket_id","id");--> statement-breakpoint
CREATE INDEX "tiles_over" ON "tiles" USING btree ("over_id");--> statement-breakpoint
ALTER TABLE "studios" ADD CONSTRAINT "studios_jurisdictions_few" CHECK (cardinality("studios"."jurisdictions") <= 20);--> statement-breakpoint
ALTER TABLE "studios" ADD CONSTRAINT "studios_tolerance_possible" CHECK ("studios"."colour_tolerance" > 0 and "studios"."colour_tolerance" <= 50);--> statement-breakpoint
ALTER TABLE "tiles" ADD CONSTRAINT "tiles_transparency_known" CHECK ("tiles"."transparency" in ('clear', 'translucent', 'opaque'));--> statement-breakpoint
ALTER TABLE "tiles" ADD CONSTRAINT "tiles_movement_known" CHECK ("tiles"."movement" in ('stays put', 'moves a little', 'moves', 'runs'));--> statement-breakpoint
ALTER TABLE "tiles" ADD CONSTRAINT "tiles_application_known" CHECK ("tiles"."application" in ('dipped', 'poured', 'brushed', 'sprayed'));--> statement-breakpoint
ALTER TABLE "tiles" ADD CONSTRAINT "tiles_seconds_possible" CHECK ("tiles"."seconds" > 0 and "tiles"."seconds" <= 600);--> statement-breakpoint
ALTER TABLE "tiles" ADD CONSTRAINT "tiles_coats_count" CHECK ("tiles"."coats" between 1 and 20);--> statement-breakpoint
ALTER TABLE "tiles" ADD CONSTRAINT "tiles_gravity_possible" CHECK ("tiles"."specific_gravity" between 1 and 3);--> statement-breakpoint
ALTER TABLE "tiles" ADD CONSTRAINT "tiles_beside_length" CHECK (char_length("tiles"."beside") between 0 and 300);
CREATE TABLE "bucket_additions" (
	"id" uuid PRIMARY KEY NOT NULL,
	"bucket_id" uuid NOT NULL,
	"what" text NOT NULL,
	"named" text NOT NULL,
	"amount" numeric(10, 3) NOT NULL,
	"unit" text NOT NULL,
	"by" uuid NOT NULL,
	"at" timestamp (3) with time zone NOT NULL,
	CONSTRAINT "bucket_additions_what_known" CHECK ("bucket_additions"."what" in ('water', 'water off', 'flocculant', 'deflocculant')),
	CONSTRAINT "bucket_additions_unit_known" CHECK ("bucket_additions"."unit" in ('g', 'ml', 'drops')),
	CONSTRAINT "bucket_additions_named_length" CHECK (char_length("bucket_additions"."named") between 0 and 80),
	CONSTRAINT "bucket_additions_amount_possible" CHECK ("bucket_additions"."amount" > 0 and "bucket_additions"."amount" <= 1000000)
);
--> statement-breakpoint
CREATE TABLE "bucket_directions" (
	"id" uuid PRIMARY KEY NOT NULL,
	"bucket_id" uuid NOT NULL,
	"gravity_low" numeric(5, 3),
	"gravity_high" numeric(5, 3),
	"flow_low" numeric(6, 1),
	"flow_high" numeric(6, 1),
	"coat_low" numeric(5, 2),
	"coat_high" numeric(5, 2),
	"body_id" uuid,
	"bisque_cone" text,
	"dip_seconds" numeric(5, 1),
	"coats" smallint,
	"foot_mm" numeric(5, 1),
	"catch_dish" boolean NOT NULL,
	"sieve" text NOT NULL,
	"stirring" text NOT NULL,
	"keeps_months" smallint,
	"ask" text NOT NULL,
	"by" uuid NOT NULL,
	"at" timestamp (3) with time zone NOT NULL,
	CONSTRAINT "bucket_directions_gravity_possible" CHECK ("bucket_directions"."gravity_low" between 1 and 3 and "bucket_directions"."gravity_high" between "bucket_directions"."gravity_low" and 3),
	CONSTRAINT "bucket_directions_flow_possible" CHECK ("bucket_directions"."flow_low" between 0 and 3600 and "bucket_directions"."flow_high" between "bucket_directions"."flow_low" and 3600),
	CONSTRAINT "bucket_directions_coat_possible" CHECK ("bucket_directions"."coat_low" between 0 and 20 and "bucket_directions"."coat_high" between "bucket_directions"."coat_low" and 20),
	CONSTRAINT "bucket_directions_bisque_shape" CHECK ("bucket_directions"."bisque_cone" ~ '^0?[0-9]{1,2}(½)?$'),
	CONSTRAINT "bucket_directions_dip_possible" CHECK ("bucket_directions"."dip_seconds" > 0 and "bucket_directions"."dip_seconds" <= 600),
	CONSTRAINT "bucket_directions_coats_count" CHECK ("bucket_directions"."coats" between 1 and 20),
	CONSTRAINT "bucket_directions_foot_possible" CHECK ("bucket_directions"."foot_mm" between 0 and 200),
	CONSTRAINT "bucket_directions_sieve_length" CHECK (char_length("bucket_directions"."sieve") between 0 and 80),
	CONSTRAINT "bucket_directions_stirring_length" CHECK (char_length("bucket_directions"."stirring") between 0 and 200),
	CONSTRAINT "bucket_directions_keeps_possible" CHECK ("bucket_directions"."keeps_months" between 1 and 240),
	CONSTRAINT "bucket_directions_ask_length" CHECK (char_length("bucket_directions"."ask") between 0 and 120)
);
--> statement-breakpoint
CREATE TABLE "bucket_readings" (
	"id" uuid PRIMARY KEY NOT NULL,
	"bucket_id" uuid NOT NULL,
	"specific_gravity" numeric(5, 3),
	"litres" numeric(8, 3),
	"celsius" numeric(4, 1),
	"flow_seconds" numeric(6, 1),
	"coat_mm" numeric(5, 2),
	"stirred" boolean NOT NULL,
	"note" text NOT NULL,
	"by" uuid NOT NULL,
	"at" timestamp (3) with time zone NOT NULL,
	CONSTRAINT "bucket_readings_gravity_possible" CHECK ("bucket_readings"."specific_gravity" between 1 and 3),
	CONSTRAINT "bucket_readings_litres_possible" CHECK ("bucket_readings"."litres" between 0 and 10000),
	CONSTRAINT "bucket_readings_celsius_possible" CHECK ("bucket_readings"."celsius" between -20 and 60),
	CONSTRAINT "bucket_readings_flow_possible" CHECK ("bucket_readings"."flow_seconds" > 0 and "bucket_readings"."flow_seconds" <= 3600),
	CONSTRAINT "bucket_readings_coat_possible" CHECK ("bucket_readings"."coat_mm" > 0 and "bucket_readings"."coat_mm" <= 20),
	CONSTRAINT "bucket_readings_note_length" CHECK (char_length("bucket_readings"."note") between 0 and 1000)
);
--> statement-breakpoint
CREATE TABLE "bucket_report_answers" (
	"report_id" uuid PRIMARY KEY NOT NULL,
	"done" text NOT NULL,
	"by" uuid NOT NULL,
	"at" timestamp (3) with time zone NOT NULL,
	CONSTRAINT "bucket_report_answers_done_length" CHECK (char_length("bucket_report_answers"."done") between 1 and 1000)
);
--> statement-breakpoint
CREATE TABLE "bucket_reports" (
	"id" uuid PRIMARY KEY NOT NULL,
	"bucket_id" uuid NOT NULL,
	"trouble" text NOT NULL,
	"note" text NOT NULL,
	"by" uuid NOT NULL,
	"at" timestamp (3) with time zone NOT NULL,
	CONSTRAINT "bucket_reports_trouble_known" CHECK ("bucket_reports"."trouble" in ('contaminated', 'lumpy', 'thin', 'wrong colour', 'no label')),
	CONSTRAINT "bucket_reports_note_length" CHECK (char_length("bucket_reports"."note") between 0 and 1000)
);
--> statement-breakpoint
CREATE TABLE "bucket_use_undoings" (
	"use_id" uuid PRIMARY KEY NOT NULL,
	"by" uuid NOT NULL,
	"at" timestamp (3) with time zone NOT NULL
);
--> statement-breakpoint
CREATE TABLE "bucket_uses" (
	"id" uuid PRIMARY KEY NOT NULL,
	"bucket_id" uuid NOT NULL,
	"what" text NOT NULL,
	"by" uuid NOT NULL,
	"at" timestamp (3) with time zone NOT NULL,
	CONSTRAINT "bucket_uses_what_length" CHECK (char_length("bucket_uses"."what") between 0 and 200)
);
--> statement-breakpoint
CREATE TABLE "mix_ends" (
	"mix_id" uuid PRIMARY KEY NOT NULL,
	"is" text NOT NULL,
	"water_grams" numeric(12, 1),
	"why" text NOT NULL,
	"by" uuid NOT NULL,
	"at" timestamp (3) with time zone NOT NULL,
	CONSTRAINT "mix_ends_is_known" CHECK ("mix_ends"."is" in ('finished', 'given up')),
	CONSTRAINT "mix_ends_water_possible" CHECK ("mix_ends"."water_grams" between 0 and 10000000),
	CONSTRAINT "mix_ends_why_length" CHECK (char_length("mix_ends"."why") between 0 and 1000)
);
--> statement-breakpoint
CREATE TABLE "mix_lines" (
	"mix_id" uuid NOT NULL,
	"n" smallint NOT NULL,
	"part" text NOT NULL,
	"material_id" uuid NOT NULL,
	"analysis_id" uuid,
	"grams" numeric(12, 4) NOT NULL,
	CONSTRAINT "mix_lines_mix_id_n_pk" PRIMARY KEY("mix_id","n"),
	CONSTRAINT "mix_lines_n_counts" CHECK ("mix_lines"."n" between 1 and 64),
	CONSTRAINT "mix_lines_part_known" CHECK ("mix_lines"."part" in ('base', 'addition')),
	CONSTRAINT "mix_lines_grams_weighable" CHECK ("mix_lines"."grams" between 0 and 1000000)
);
--> statement-breakpoint
CREATE TABLE "mix_plan_ends" (
	"plan_id" uuid PRIMARY KEY NOT NULL,
	"is" text NOT NULL,
	"by" uuid NOT NULL,
	"at" timestamp (3) with time zone NOT NULL,
	CONSTRAINT "mix_plan_ends_is_known" CHECK ("mix_plan_ends"."is" in ('mixed', 'dropped'))
);
--> statement-breakpoint
CREATE TABLE "mix_plans" (
	"id" uuid PRIMARY KEY NOT NULL,
	"revision_id" uuid NOT NULL,
	"base_grams" numeric(12, 4) NOT NULL,
	"note" text NOT NULL,
	"by" uuid NOT NULL,
	"at" timestamp (3) with time zone NOT NULL,
	CONSTRAINT "mix_plans_base_weighable" CHECK ("mix_plans"."base_grams" > 0 and "mix_plans"."base_grams" <= 1000000),
	CONSTRAINT "mix_plans_note_length" CHECK (char_length("mix_plans"."note") between 0 and 500)
);
--> statement-breakpoint
CREATE TABLE "mix_tick_undoings" (
	"tick_id" uuid PRIMARY KEY NOT NULL,
	"by" uuid NOT NULL,
	"at" timestamp (3) with time zone NOT NULL
);
--> statement-breakpoint
CREATE TABLE "mix_ticks" (
	"id" uuid PRIMARY KEY NOT NULL,
	"mix_id" uuid NOT NULL,
	"n" smallint NOT NULL,
	"lot_id" uuid,
	"grams" numeric(12, 4) NOT NULL,
	"key" text NOT NULL,
	"by" uuid NOT NULL,
	"at" timestamp (3) with time zone NOT NULL,
	CONSTRAINT "mix_ticks_once" UNIQUE("mix_id","key"),
	CONSTRAINT "mix_ticks_grams_weighable" CHECK ("mix_ticks"."grams" > 0 and "mix_ticks"."grams" <= 1000000),
	CONSTRAINT "mix_ticks_key_length" CHECK (char_length("mix_ticks"."key") between 8 and 80)
);
--> statement-breakpoint
CREATE TABLE "mixes" (
	"id" uuid PRIMARY KEY NOT NULL,
	"bucket_id" uuid NOT NULL,
	"revision_id" uuid NOT NULL,
	"base_grams" numeric(12, 4) NOT NULL,
	"scale_grams" numeric(8, 4) NOT NULL,
	"water_grams" numeric(12, 1),
	"by" uuid NOT NULL,
	"at" timestamp (3) with time zone NOT NULL,
	CONSTRAINT "mixes_base_weighable" CHECK ("mixes"."base_grams" > 0 and "mixes"."base_grams" <= 1000000),
	CONSTRAINT "mixes_scale_possible" CHECK ("mixes"."scale_grams" > 0 and "mixes"."scale_grams" <= 1000),
	CONSTRAINT "mixes_water_possible" CHECK ("mixes"."water_grams" between 0 and 10000000)
);
--> statement-breakpoint
CREATE TABLE "data_sheets" (
	"id" uuid PRIMARY KEY NOT NULL,
	"material_id" uuid NOT NULL,
	"signal" text NOT NULL,
	"statements" text[] NOT NULL,
	"precautions" text[] NOT NULL,
	"issued_on" date,
	"source" text NOT NULL,
	"by" uuid NOT NULL,
	"at" timestamp (3) with time zone NOT NULL,
	CONSTRAINT "data_sheets_signal_known" CHECK ("data_sheets"."signal" in ('danger', 'warning', 'none')),
	CONSTRAINT "data_sheets_statements_few" CHECK (cardinality("data_sheets"."statements") <= 30),
	CONSTRAINT "data_sheets_precautions_few" CHECK (cardinality("data_sheets"."precautions") <= 40),
	CONSTRAINT "data_sheets_source_length" CHECK (char_length("data_sheets"."source") between 1 and 300)
);
--> statement-breakpoint
CREATE TABLE "material_gravities" (
	"id" uuid PRIMARY KEY NOT NULL,
	"material_id" uuid NOT NULL,
	"gravity" numeric(6, 3) NOT NULL,
	"source" text NOT NULL,
	"by" uuid NOT NULL,
	"at" timestamp (3) with time zone NOT NULL,
	CONSTRAINT "material_gravities_possible" CHECK ("material_gravities"."gravity" > 1 and "material_gravities"."gravity" <= 8),
	CONSTRAINT "material_gravities_source_length" CHECK (char_length("material_gravities"."source") between 1 and 300)
);
--> statement-breakpoint
CREATE TABLE "packs" (
	"id" uuid PRIMARY KEY NOT NULL,
	"supplier_id" uuid NOT NULL,
	"material_id" uuid NOT NULL,
	"pack_grams" numeric(12, 3) NOT NULL,
	"pack_price" numeric(12, 4) NOT NULL,
	"currency" text NOT NULL,
	"still_sold" boolean NOT NULL,
	"by" uuid NOT NULL,
	"at" timestamp (3) with time zone NOT NULL,
	CONSTRAINT "packs_grams_weighable" CHECK ("packs"."pack_grams" > 0 and "packs"."pack_grams" <= 100000000),
	CONSTRAINT "packs_price_payable" CHECK ("packs"."pack_price" between 0 and 10000000),
	CONSTRAINT "packs_currency_shape" CHECK ("packs"."currency" ~ '^[A-Z]{3}$')
);
--> statement-breakpoint
CREATE TABLE "recall_closings" (
	"recall_id" uuid PRIMARY KEY NOT NULL,
	"done" text NOT NULL,
	"by" uuid NOT NULL,
	"at" timestamp (3) with time zone NOT NULL,
	CONSTRAINT "recall_closings_done_length" CHECK (char_length("recall_closings"."done") between 1 and 2000)
);
--> statement-breakpoint
CREATE TABLE "recalls" (
	"id" uuid PRIMARY KEY NOT NULL,
	"lot_id" uuid,
	"bucket_id" uuid,
	"why" text NOT NULL,
	"by" uuid NOT NULL,
	"at" timestamp (3) with time zone NOT NULL,
	CONSTRAINT "recalls_of_one_thing" CHECK (num_nonnulls("recalls"."lot_id", "recalls"."bucket_id") = 1),
	CONSTRAINT "recalls_why_length" CHECK (char_length("recalls"."why") between 1 and 2000)
);
--> statement-breakpoint
CREATE TABLE "stock_lines" (
	"id" uuid PRIMARY KEY NOT NULL,
	"material_id" uuid NOT NULL,
	"grams" numeric(12, 3),
	"by" uuid NOT NULL,
	"at" timestamp (3) with time zone NOT NULL,
	CONSTRAINT "stock_lines_grams_possible" CHECK ("stock_lines"."grams" between 0 and 100000000)
);
--> statement-breakpoint
CREATE TABLE "stock_moves" (
	"id" uuid PRIMARY KEY NOT NULL,
	"lot_id" uuid NOT NULL,
	"grams" numeric(14, 4) NOT NULL,
	"because" text NOT NULL,
	"tick_id" uuid,
	"why" text NOT NULL,
	"by" uuid NOT NULL,
	"at" timestamp (3) with time zone NOT NULL,
	CONSTRAINT "stock_moves_once_a_tick" UNIQUE("tick_id","because"),
	CONSTRAINT "stock_moves_grams_possible" CHECK (abs("stock_moves"."grams") <= 1000000000),
	CONSTRAINT "stock_moves_because_known" CHECK ("stock_moves"."because" in ('mix', 'undone', 'stocktake', 'other use')),
	CONSTRAINT "stock_moves_tick_where_mixed" CHECK (("stock_moves"."tick_id" is not null) = ("stock_moves"."because" in ('mix', 'undone'))),
	CONSTRAINT "stock_moves_why_length" CHECK (char_length("stock_moves"."why") between 0 and 1000)
);
--> statement-breakpoint
CREATE TABLE "supplier_terms" (
	"id" uuid PRIMARY KEY NOT NULL,
	"supplier_id" uuid NOT NULL,
	"region" text NOT NULL,
	"carriage" numeric(12, 4) NOT NULL,
	"free_from" numeric(12, 4),
	"currency" text NOT NULL,
	"by" uuid NOT NULL,
	"at" timestamp (3) with time zone NOT NULL,
	CONSTRAINT "supplier_terms_region_length" CHECK (char_length("supplier_terms"."region") between 0 and 60),
	CONSTRAINT "supplier_terms_carriage_payable" CHECK ("supplier_terms"."carriage" between 0 and 10000000),
	CONSTRAINT "supplier_terms_free_from_payable" CHECK ("supplier_terms"."free_from" between 0 and 10000000),
	CONSTRAINT "supplier_terms_currency_shape" CHECK ("supplier_terms"."currency" ~ '^[A-Z]{3}$')
);
--> statement-breakpoint
ALTER TABLE "buckets" ADD COLUMN "for_test" boolean DEFAULT false NOT NULL;--> statement-breakpoint
ALTER TABLE "lots" ADD COLUMN "best_before" date;--> statement-breakpoint
ALTER TABLE "studios" ADD COLUMN "currency" text;--> statement-breakpoint
ALTER TABLE "studios" ADD COLUMN "mix_tolerance_percent" numeric(5, 2) DEFAULT 1 NOT NULL;--> statement-breakpoint
ALTER TABLE "studios" ADD COLUMN "stock_weeks" smallint DEFAULT 6 NOT NULL;--> statement-breakpoint
ALTER TABLE "bucket_additions" ADD CONSTRAINT "bucket_additions_bucket_id_buckets_id_fk" FOREIGN KEY ("bucket_id") REFERENCES "public"."buckets"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "bucket_additions" ADD CONSTRAINT "bucket_additions_by_people_id_fk" FOREIGN KEY ("by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "bucket_directions" ADD CONSTRAINT "bucket_directions_bucket_id_buckets_id_fk" FOREIGN KEY ("bucket_id") REFERENCES "public"."buckets"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "bucket_directions" ADD CONSTRAINT "bucket_directions_body_id_bodies_id_fk" FOREIGN KEY ("body_id") REFERENCES "public"."bodies"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "bucket_directions" ADD CONSTRAINT "bucket_directions_by_people_id_fk" FOREIGN KEY ("by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "bucket_readings" ADD CONSTRAINT "bucket_readings_bucket_id_buckets_id_fk" FOREIGN KEY ("bucket_id") REFERENCES "public"."buckets"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "bucket_readings" ADD CONSTRAINT "bucket_readings_by_people_id_fk" FOREIGN KEY ("by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "bucket_report_answers" ADD CONSTRAINT "bucket_report_answers_report_id_bucket_reports_id_fk" FOREIGN KEY ("report_id") REFERENCES "public"."bucket_reports"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "bucket_report_answers" ADD CONSTRAINT "bucket_report_answers_by_people_id_fk" FOREIGN KEY ("by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "bucket_reports" ADD CONSTRAINT "bucket_reports_bucket_id_buckets_id_fk" FOREIGN KEY ("bucket_id") REFERENCES "public"."buckets"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "bucket_reports" ADD CONSTRAINT "bucket_reports_by_people_id_fk" FOREIGN KEY ("by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "bucket_use_undoings" ADD CONSTRAINT "bucket_use_undoings_use_id_bucket_uses_id_fk" FOREIGN KEY ("use_id") REFERENCES "public"."bucket_uses"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "bucket_use_undoings" ADD CONSTRAINT "bucket_use_undoings_by_people_id_fk" FOREIGN KEY ("by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "bucket_uses" ADD CONSTRAINT "bucket_uses_bucket_id_buckets_id_fk" FOREIGN KEY ("bucket_id") REFERENCES "public"."buckets"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "bucket_uses" ADD CONSTRAINT "bucket_uses_by_people_id_fk" FOREIGN KEY ("by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "mix_ends" ADD CONSTRAINT "mix_ends_mix_id_mixes_id_fk" FOREIGN KEY ("mix_id") REFERENCES "public"."mixes"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "mix_ends" ADD CONSTRAINT "mix_ends_by_people_id_fk" FOREIGN KEY ("by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "mix_lines" ADD CONSTRAINT "mix_lines_mix_id_mixes_id_fk" FOREIGN KEY ("mix_id") REFERENCES "public"."mixes"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "mix_lines" ADD CONSTRAINT "mix_lines_material_id_materials_id_fk" FOREIGN KEY ("material_id") REFERENCES "public"."materials"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "mix_lines" ADD CONSTRAINT "mix_lines_analysis_id_analyses_id_fk" FOREIGN KEY ("analysis_id") REFERENCES "public"."analyses"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "mix_plan_ends" ADD CONSTRAINT "mix_plan_ends_plan_id_mix_plans_id_fk" FOREIGN KEY ("plan_id") REFERENCES "public"."mix_plans"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "mix_plan_ends" ADD CONSTRAINT "mix_plan_ends_by_people_id_fk" FOREIGN KEY ("by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "mix_plans" ADD CONSTRAINT "mix_plans_revision_id_revisions_id_fk" FOREIGN KEY ("revision_id") REFERENCES "public"."revisions"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "mix_plans" ADD CONSTRAINT "mix_plans_by_people_id_fk" FOREIGN KEY ("by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "mix_tick_undoings" ADD CONSTRAINT "mix_tick_undoings_tick_id_mix_ticks_id_fk" FOREIGN KEY ("tick_id") REFERENCES "public"."mix_ticks"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "mix_tick_undoings" ADD CONSTRAINT "mix_tick_undoings_by_people_id_fk" FOREIGN KEY ("by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "mix_ticks" ADD CONSTRAINT "mix_ticks_lot_id_lots_id_fk" FOREIGN KEY ("lot_id") REFERENCES "public"."lots"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "mix_ticks" ADD CONSTRAINT "mix_ticks_by_people_id_fk" FOREIGN KEY ("by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "mix_ticks" ADD CONSTRAINT "mix_ticks_of_a_line" FOREIGN KEY ("mix_id","n") REFERENCES "public"."mix_lines"("mix_id","n") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "mixes" ADD CONSTRAINT "mixes_bucket_id_buckets_id_fk" FOREIGN KEY ("bucket_id") REFERENCES "public"."buckets"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "mixes" ADD CONSTRAINT "mixes_revision_id_revisions_id_fk" FOREIGN KEY ("revision_id") REFERENCES "public"."revisions"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "mixes" ADD CONSTRAINT "mixes_by_people_id_fk" FOREIGN KEY ("by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "data_sheets" ADD CONSTRAINT "data_sheets_material_id_materials_id_fk" FOREIGN KEY ("material_id") REFERENCES "public"."materials"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "data_sheets" ADD CONSTRAINT "data_sheets_by_people_id_fk" FOREIGN KEY ("by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "material_gravities" ADD CONSTRAINT "material_gravities_material_id_materials_id_fk" FOREIGN KEY ("material_id") REFERENCES "public"."materials"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "material_gravities" ADD CONSTRAINT "material_gravities_by_people_id_fk" FOREIGN KEY ("by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "packs" ADD CONSTRAINT "packs_supplier_id_suppliers_id_fk" FOREIGN KEY ("supplier_id") REFERENCES "public"."suppliers"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "packs" ADD CONSTRAINT "packs_material_id_materials_id_fk" FOREIGN KEY ("material_id") REFERENCES "public"."materials"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "packs" ADD CONSTRAINT "packs_by_people_id_fk" FOREIGN KEY ("by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "recall_closings" ADD CONSTRAINT "recall_closings_recall_id_recalls_id_fk" FOREIGN KEY ("recall_id") REFERENCES "public"."recalls"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "recall_closings" ADD CONSTRAINT "recall_closings_by_people_id_fk" FOREIGN KEY ("by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "recalls" ADD CONSTRAINT "recalls_lot_id_lots_id_fk" FOREIGN KEY ("lot_id") REFERENCES "public"."lots"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "recalls" ADD CONSTRAINT "recalls_bucket_id_buckets_id_fk" FOREIGN KEY ("bucket_id") REFERENCES "public"."buckets"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "recalls" ADD CONSTRAINT "recalls_by_people_id_fk" FOREIGN KEY ("by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "stock_lines" ADD CONSTRAINT "stock_lines_material_id_materials_id_fk" FOREIGN KEY ("material_id") REFERENCES "public"."materials"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "stock_lines" ADD CONSTRAINT "stock_lines_by_people_id_fk" FOREIGN KEY ("by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "stock_moves" ADD CONSTRAINT "stock_moves_lot_id_lots_id_fk" FOREIGN KEY ("lot_id") REFERENCES "public"."lots"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "stock_moves" ADD CONSTRAINT "stock_moves_tick_id_mix_ticks_id_fk" FOREIGN KEY ("tick_id") REFERENCES "public"."mix_ticks"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "stock_moves" ADD CONSTRAINT "stock_moves_by_people_id_fk" FOREIGN KEY ("by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "supplier_terms" ADD CONSTRAINT "supplier_terms_supplier_id_suppliers_id_fk" FOREIGN KEY ("supplier_id") REFERENCES "public"."suppliers"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "supplier_terms" ADD CONSTRAINT "supplier_terms_by_people_id_fk" FOREIGN KEY ("by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
CREATE INDEX "bucket_additions_of_bucket" ON "bucket_additions" USING btree ("bucket_id","id");--> statement-breakpoint
CREATE INDEX "bucket_directions_of_bucket" ON "bucket_directions" USING btree ("bucket_id","id");--> statement-breakpoint
CREATE INDEX "bucket_readings_of_bucket" ON "bucket_readings" USING btree ("bucket_id","id");--> statement-breakpoint
CREATE INDEX "bucket_reports_of_bucket" ON "bucket_reports" USING btree ("bucket_id","id");--> statement-breakpoint
CREATE INDEX "bucket_uses_of_bucket" ON "bucket_uses" USING btree ("bucket_id","id");--> statement-breakpoint
CREATE INDEX "bucket_uses_of_person" ON "bucket_uses" USING btree ("by","id");--> statement-breakpoint
CREATE INDEX "mix_ticks_of_line" ON "mix_ticks" USING btree ("mix_id","n","id");--> statement-breakpoint
CREATE INDEX "mix_ticks_of_lot" ON "mix_ticks" USING btree ("lot_id");--> statement-breakpoint
CREATE INDEX "mixes_of_bucket" ON "mixes" USING btree ("bucket_id","id");--> statement-breakpoint
CREATE INDEX "data_sheets_of_material" ON "data_sheets" USING btree ("material_id","id");--> statement-breakpoint
CREATE INDEX "material_gravities_of_material" ON "material_gravities" USING btree ("material_id","id");--> statement-breakpoint
CREATE INDEX "packs_of_material" ON "packs" USING btree ("material_id","supplier_id","pack_grams","id");--> statement-breakpoint
CREATE INDEX "recalls_of_lot" ON "recalls" USING btree ("lot_id");--> statement-breakpoint
CREATE INDEX "recalls_of_bucket" ON "recalls" USING btree ("bucket_id");--> statement-breakpoint
CREATE INDEX "stock_lines_of_material" ON "stock_lines" USING btree ("material_id","id");--> statement-breakpoint
CREATE INDEX "stock_moves_of_lot" ON "stock_moves" USING btree ("lot_id","id");--> statement-breakpoint
CREATE INDEX "supplier_terms_of_supplier" ON "supplier_terms" USING btree ("supplier_id","id");--> statement-breakpoint
ALTER TABLE "studios" ADD CONSTRAINT "studios_currency_shape" CHECK ("studios"."currency" ~ '^[A-Z]{3}$');--> statement-breakpoint
ALTER TABLE "studios" ADD CONSTRAINT "studios_mix_tolerance_possible" CHECK ("studios"."mix_tolerance_percent" > 0 and "studios"."mix_tolerance_percent" <= 50);--> statement-breakpoint
ALTER TABLE "studios" ADD CONSTRAINT "studios_stock_weeks_possible" CHECK ("studios"."stock_weeks" between 1 and 104);
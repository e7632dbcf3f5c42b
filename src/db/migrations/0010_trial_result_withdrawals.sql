CREATE TABLE "trial_result_withdrawals" (
	"result_id" uuid PRIMARY KEY NOT NULL,
	"why" text NOT NULL,
	"by" uuid NOT NULL,
	"at" timestamp (3) with time zone NOT NULL,
	CONSTRAINT "trial_result_withdrawals_why_length" CHECK (char_length("trial_result_withdrawals"."why") between 1 and 1000)
);
--> statement-breakpoint
ALTER TABLE "trial_result_withdrawals" ADD CONSTRAINT "trial_result_withdrawals_result_id_trial_results_id_fk" FOREIGN KEY ("result_id") REFERENCES "public"."trial_results"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "trial_result_withdrawals" ADD CONSTRAINT "trial_result_withdrawals_by_people_id_fk" FOREIGN KEY ("by") REFERENCES "public"."people"("id") ON DELETE no action ON UPDATE no action;--> statement-breakpoint
CREATE TRIGGER keep_rows BEFORE UPDATE OR DELETE ON "trial_result_withdrawals" FOR EACH ROW EXECUTE FUNCTION refuse_change();--> statement-breakpoint
CREATE TRIGGER keep_table BEFORE TRUNCATE ON "trial_result_withdrawals" FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();

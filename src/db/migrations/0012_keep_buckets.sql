DO $$
DECLARE
  append_only text;
BEGIN
  FOREACH append_only IN ARRAY ARRAY[
    'mixes', 'mix_lines', 'mix_ticks', 'mix_tick_undoings', 'mix_ends', 'mix_plans', 'mix_plan_ends',
    'stock_moves', 'stock_lines', 'recalls', 'recall_closings', 'packs', 'supplier_terms',
    'material_gravities', 'data_sheets', 'bucket_readings', 'bucket_additions', 'bucket_directions',
    'bucket_reports', 'bucket_report_answers', 'bucket_uses', 'bucket_use_undoings'
  ] LOOP
    EXECUTE format('CREATE TRIGGER keep_rows BEFORE UPDATE OR DELETE ON %I FOR EACH ROW EXECUTE FUNCTION refuse_change()', append_only);
    EXECUTE format('CREATE TRIGGER keep_table BEFORE TRUNCATE ON %I FOR EACH STATEMENT EXECUTE FUNCTION refuse_change()', append_only);
  END LOOP;
END $$;

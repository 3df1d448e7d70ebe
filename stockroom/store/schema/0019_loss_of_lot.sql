-- A count of several lots is explained lot by lot; without a lot the row explains all of them.
ALTER TABLE explained_loss ADD COLUMN lot_id INTEGER REFERENCES lot ON DELETE RESTRICT;

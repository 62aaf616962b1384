package journal

import (
	"context"
	"database/sql"
	"embed"
	"fmt"
	"io/fs"
)

//go:embed migrations/*.sql
var migrations embed.FS

// ready checks that the store is ours and of this build's version or older,
// before anything is written, and brings it up to date.
func (j *Journal) ready(ctx context.Context) error {
	names, err := fs.Glob(migrations, "migrations/*.sql")
	if err != nil {
		return err
	}
	var version int
	err = j.still(ctx, func(tx *sql.Tx) (err error) {
		version, err = j.version(ctx, tx)
		return err
	})
	if err != nil {
		return err
	}
	if version < len(names) {
		err = j.change(ctx, func(tx *sql.Tx) error { return j.migrate(ctx, tx, names) })
	}
	if err == nil && j.path != "" {
		err = j.writeAhead(ctx)
	}
	return err
}

// version gives the number of the store's last migration, 0 for an empty store.
func (j *Journal) version(ctx context.Context, q querier) (int, error) {
	if ours, err := has(ctx, q, j.known); err != nil || !ours {
		if err == nil && j.foreign != "" {
			if ours, err = has(ctx, q, j.foreign); ours {
				err = j.named(ErrDamaged, "holds the tables of another program")
			}
		}
		return 0, err
	}
	var version int
	if err := q.QueryRowContext(ctx, `SELECT max(version) FROM sparehand`).Scan(&version); err != nil {
		return 0, err
	}
	if names, _ := fs.Glob(migrations, "migrations/*.sql"); version > len(names) {
		return 0, fmt.Errorf("%w: its version is %d and this build knows %d; use the newer sparehand for %s, which was not touched",
			ErrNewer, version, len(names), j.where)
	}
	return version, nil
}

// migrate runs what the store has not seen. Two servers that start at once come
// here one after the other, so it looks again.
func (j *Journal) migrate(ctx context.Context, tx *sql.Tx, names []string) error {
	if j.lock != "" {
		if _, err := tx.ExecContext(ctx, j.lock); err != nil {
			return err
		}
	}
	version, err := j.version(ctx, tx)
	if err != nil {
		return err
	}
	if version == 0 {
		if _, err := tx.ExecContext(ctx, `CREATE TABLE sparehand (version BIGINT NOT NULL PRIMARY KEY)`); err != nil {
			return err
		}
	}
	for ; version < len(names); version++ {
		script, err := migrations.ReadFile(names[version])
		if err != nil {
			return err
		}
		if _, err := tx.ExecContext(ctx, string(script)); err != nil {
			return err
		}
		if _, err := tx.ExecContext(ctx, `INSERT INTO sparehand (version) VALUES ($1)`, version+1); err != nil {
			return err
		}
	}
	return nil
}

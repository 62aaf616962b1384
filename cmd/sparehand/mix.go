package main

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"sparehand/internal/talk"
)

type mixCmd struct {
	rulesFlag
	Words    []string          `arg:"" optional:"" help:"Sizes and what else decides it, as you would say it: 5 barnacles, 30 by 20 by 8 mm."`
	Recipe   string            `help:"Which recipe: gelatin_sorbitol_glycerin, gelatin_glycerin or gelatin_water." default:"gelatin_sorbitol_glycerin" placeholder:"NAME"`
	Measure  string            `help:"What you measure with: scales, us_cup, metric_cup, spoons or own." placeholder:"NAME"`
	Sum      []string          `help:"Which sum instead of the mix; may be given again." placeholder:"ID"`
	Set      map[string]string `help:"Any fact of the book by name, with its unit in words: --set worn_humidity=45." placeholder:"FACT=VALUE"`
	List     bool              `help:"List the sums and the facts that each goes by."`
	JSON     bool              `help:"Write the reply as JSON."`
	Pictures string            `help:"Write the pictures as SVG files into this folder." type:"path" placeholder:"DIR"`
}

func (c mixCmd) Run(std streams) error {
	b, err := c.load()
	if err != nil {
		return err
	}
	a := talk.New(b)
	if c.List {
		for _, s := range a.Sums() {
			fmt.Fprintf(std.out, "%s: %s\n    %s\n", s.ID, s.Title, strings.Join(s.Facts, ", "))
		}
		return nil
	}
	set := map[string]string{"recipe": c.Recipe}
	if c.Measure != "" {
		set["measure"] = c.Measure
	}
	for name, value := range c.Set {
		set[name] = value
	}
	reply, err := a.Sheet(talk.Asking{Words: strings.Join(c.Words, " "), Set: set, Sums: c.Sum})
	if err != nil {
		return err
	}
	if err := writePictures(c.Pictures, reply); err != nil {
		return err
	}
	if c.JSON {
		encode := json.NewEncoder(std.out)
		encode.SetEscapeHTML(false)
		return encode.Encode(reply)
	}
	for _, caution := range reply.Cautions {
		fmt.Fprintf(std.out, "  ! %s\n", caution.Text)
	}
	printAmounts(std.out, reply.Amounts)
	return nil
}

func writePictures(dir string, reply talk.Reply) error {
	if dir == "" {
		return nil
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return fmt.Errorf("making the folder for the pictures: %w", err)
	}
	for _, p := range reply.Pictures {
		if err := os.WriteFile(filepath.Join(dir, p.ID+".svg"), []byte(p.SVG+"\n"), 0o644); err != nil {
			return fmt.Errorf("writing a picture: %w", err)
		}
	}
	return nil
}

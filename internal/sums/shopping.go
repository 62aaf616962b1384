package sums

import (
	"fmt"
	"slices"
	"strings"

	"sparehand/internal/book"
	"sparehand/internal/craft"
	"sparehand/internal/phrase"
)

// shop makes one shopping list of several amounts.
func (w *work) shop(list []*book.Amount) {
	var wants []craft.Want
	materials := map[string]*book.Material{}
	for _, am := range list {
		one := Bench{w.Book, w.Known}.Work(am)
		for _, f := range one.Lacks {
			if !slices.Contains(w.out.Lacks, f) {
				w.out.Lacks = append(w.out.Lacks, f)
			}
		}
		if one.Refused != "" {
			w.out.Refused = one.Refused
			return
		}
		for _, text := range one.Assumes {
			if !slices.Contains(w.out.Assumes, text) {
				w.out.Assumes = append(w.out.Assumes, text)
			}
		}
		for _, line := range one.Lines {
			if line.Grams <= 0 || line.Material != nil && line.Material.Holds == book.HoldsWater {
				continue // water runs from the tap
			}
			if line.Material != nil {
				materials[line.Name] = line.Material
			}
			wants = append(wants, craft.Want{Material: line.Name, Unit: "g", Amount: line.Grams, For: am.Title})
		}
	}
	if len(w.out.Lacks) > 0 {
		return
	}
	bought, err := craft.Shopping(wants, w.packs(materials))
	if err != nil {
		w.refuse(err)
		return
	}
	for _, item := range bought.Items {
		w.buyLine(item, materials[item.Material])
	}
	if bought.Known {
		w.out.Notes = append(w.out.Notes, fmt.Sprintf("All of it costs %.2f, by the prices you gave.", bought.Price))
	}
	w.out.Spoken = spokenList(bought.Items)
}

// packs gives the sizes to buy in: the maker's own, else the usual ones.
func (w *work) packs(materials map[string]*book.Material) map[string][]craft.Pack {
	out := map[string][]craft.Pack{}
	for name, m := range materials {
		if own := w.told(m.Pack).value; own > 0 {
			out[name] = []craft.Pack{{Size: own, Price: w.told(m.Price).value}}
			continue
		}
		for _, size := range m.Packs {
			out[name] = append(out[name], craft.Pack{Size: size})
		}
	}
	return out
}

func (w *work) buyLine(item craft.Item, m *book.Material) {
	line := Line{Name: item.Material, Unit: "g", Grams: item.Need, Material: m,
		Span: craft.Span{Low: item.Need, Mid: item.Need, High: item.Need}}
	if m != nil && m.Scooped > 0 {
		line.Millilitres = item.Need / m.Scooped
	}
	if len(item.Buy.Packs) > 0 {
		line.Text = fmt.Sprintf("%s, %s g left over", packsInWords(item.Buy), number1(craft.Sensible(item.Buy.Left)))
		if item.Buy.Known {
			line.Text += fmt.Sprintf(", %.2f", item.Buy.Price)
		}
	}
	w.out.Lines = append(w.out.Lines, line)
	if m != nil {
		for _, instead := range m.Instead {
			w.out.Notes = append(w.out.Notes, phrase.Sentence("In place of "+m.Title+": "+instead))
		}
	}
}

func packsInWords(p craft.Purchase) string {
	words := make([]string, len(p.Packs))
	for i, b := range p.Packs {
		words[i] = fmt.Sprintf("%d of %s g", b.Count, number1(b.Pack.Size))
	}
	return phrase.And(words)
}

func spokenList(items []craft.Item) string {
	words := make([]string, len(items))
	for i, item := range items {
		words[i] = fmt.Sprintf("%s %s g", item.Material, number1(craft.Sensible(item.Need)))
		if len(item.Buy.Packs) > 0 {
			words[i] = item.Material + ": " + packsInWords(item.Buy)
		}
	}
	return phrase.Sentence("To buy: " + strings.Join(words, "; "))
}

'use strict';
// Looks words up in the index, which stands before this in one file; a page asks for it when a reader first means to look.
globalThis.finder = (({ kinds, skip: skipped, worth, pages, entries, ways, words }) => {
  const MOST = 12;
  /** What a word is worth by where it stands: in a title, among other names, in a text. */
  const FIELDS = [12, 8, 3];
  const skip = new Set(skipped.split(' '));
  const titles = entries.length + ways.length;
  /** How many words each title has that are looked for. */
  const sizes = new Uint8Array(titles);
  const forms = decode();
  const names = unfold(entries.map(([title]) => title));

  /** Texts that are each coded by how many letters they share with the one before, and what follows. */
  function unfold(coded) {
    let text = '';
    return coded.map((part) => (text = text.slice(0, parseInt(part[0], 36)) + part.slice(1)));
  }

  // A group has its lists of names, other names and text; a list stays text until it is needed, since one key may need thousands.
  function decode() {
    const decoded = [];
    const groups = words.split(';').map((group) => group.split(' '));
    const unfolded = unfold(groups.flatMap(([coded]) => coded.split(',')));
    for (const [coded, ...lists] of groups) {
      const own = unfolded.slice(decoded.length, decoded.length + coded.split(',').length);
      for (const each of own) decoded.push([each, lists]);
      if (!skip.has(own[0])) for (const at of entriesIn(lists, 0)) sizes[at] += 1;
    }
    return decoded.sort(([a], [b]) => (a < b ? -1 : 1));
  }

  function entriesIn(lists, field) {
    const text = lists[field];
    if (typeof text !== 'string') return text ?? [];
    const found = [];
    let [at, step] = [0, 0];
    for (let i = 0; text && i <= text.length; i += 1) {
      const code = text.charCodeAt(i);
      if (code >= 48) {
        step = step * 36 + code - (code < 58 ? 48 : 87);
      } else {
        found.push((at += step));
        step = 0;
      }
    }
    return (lists[field] = found);
  }

  function firstFrom(word) {
    let [low, high] = [0, forms.length];
    while (low < high) {
      const middle = (low + high) >> 1;
      if (forms[middle][0] < word) low = middle + 1;
      else high = middle;
    }
    return low;
  }

  const better = (fits, lists, fit) => fit > (fits.get(lists) ?? 0) && fits.set(lists, fit);

  /** The groups with a word, or with one that begins so, and how well each fits; a nought stands for any number. */
  function begun(word) {
    const fits = new Map();
    for (let i = firstFrom(word); forms[i]?.[0].startsWith(word); i += 1) {
      better(fits, forms[i][1], forms[i][0] === word ? 1 : 0.7);
    }
    const any = /^\d+$/.test(word) && forms[firstFrom('0')];
    if (any?.[0] === '0') better(fits, any[1], 1);
    return fits;
  }

  /**
   * The groups with a word that a few slips turn into the one that was typed, or that begins so unless it must be whole: of a letter too many, one too
   * few, another one, or two that changed places. Forms stand in order, so that what they share with the one before is
   * compared once.
   */
  function slipped(word, most, whole = false) {
    const rows = Array.from({ length: word.length + most + 1 }, (_, i) => new Uint8Array(word.length + 1).fill(i));
    for (let j = 0; j <= word.length; j += 1) rows[0][j] = j;
    let [fits, least, before, dead] = [new Map(), most, '', Infinity];
    for (const [form, lists] of forms) {
      let at = 0;
      while (at < before.length && before[at] === form[at]) at += 1;
      before = form;
      if (at >= dead) continue;
      dead = Infinity;
      const last = Math.min(form.length, word.length + most);
      for (; at < last && dead > at; at += 1) {
        const [two, one, row, letter] = [rows[at - 1], rows[at], rows[at + 1], form[at]];
        let low = (row[0] = at + 1);
        for (let j = 1; j <= word.length; j += 1) {
          let slips = Math.min(one[j] + 1, row[j - 1] + 1, one[j - 1] + (letter !== word[j - 1]));
          if (at && letter === word[j - 2] && form[at - 1] === word[j - 1]) slips = Math.min(slips, two[j - 2] + 1);
          row[j] = slips;
          if (slips < low) low = slips;
        }
        if (low > most) dead = at + 1;
      }
      const from = whole ? form.length : Math.max(word.length - most, 1);
      for (let i = from; i <= last && i < dead; i += 1) {
        const slips = rows[i][word.length];
        if (!slips || slips > least) continue;
        if (slips < least) [fits, least] = [new Map(), slips];
        better(fits, lists, (i === form.length ? 0.5 : 0.4) / slips);
      }
    }
    return fits;
  }

  /** One slip is forgiven in a word of four letters, two in one of six; a word that there is may be one with a slip as well. */
  function fitting(word) {
    const fits = begun(word);
    const most = (word.length > 3) + (word.length > 5);
    if (!most) return fits;
    const [slips, less] = fits.size ? [1, 0.4] : [most, 1];
    for (const [lists, fit] of slipped(word, slips)) better(fits, lists, fit * less);
    return fits;
  }

  /** A word that few entries have tells more than one that many have; those that it only nearly is say nothing of that. */
  function tells(fits) {
    const most = Math.max(...fits.values());
    let found = 1;
    for (const [lists, fit] of fits) {
      if (fit === most) for (const field of [0, 1, 2]) found += entriesIn(lists, field).length;
    }
    return Math.log(1 + titles / found);
  }

  function weigh(asked) {
    const [weights, met, covered] = [0, 0, 0].map(() => new Float32Array(titles));
    let sum = 0;
    for (const fits of asked) {
      const told = tells(fits);
      const [best, fitted, cover] = [0, 0, 0].map(() => new Float32Array(titles));
      sum += told;
      for (const [lists, fit] of fits) {
        FIELDS.forEach((worth, field) => {
          for (const at of entriesIn(lists, field)) {
            best[at] = Math.max(best[at], worth * fit);
            fitted[at] = Math.max(fitted[at], fit);
          }
        });
        for (const at of entriesIn(lists, 0)) cover[at] = Math.max(cover[at], fit);
      }
      best.forEach((worth, at) => {
        if (!worth) return;
        weights[at] += told * worth;
        met[at] += told * fitted[at];
        covered[at] += cover[at];
      });
    }
    return weights.map((weight, at) => {
      if (!weight) return 0;
      const cover = covered[at] / Math.max(sizes[at], 1);
      // An everyday phrase counts as a whole; of a title a part counts too.
      const whole = at < entries.length ? (1 + 0.8 * cover) * worth[entries[at][1]] : 1.3 * cover ** 3;
      return weight * whole * (met[at] / sum) ** 1.5;
    });
  }

  function hit(at) {
    const [, kind, page, anchor] = entries[at];
    const id = pages[anchor]?.replace(/^woods\/|\.html$/g, '') ?? anchor;
    return { title: names[at], kind: kinds[kind], href: pages[page] + (id ? `#${id}` : '') };
  }

  /** What fits the words best, how many fit, and for words that nothing fits the nearest that there is. */
  return {
    search(typed) {
      const meant = typed.filter((word) => !skip.has(word));
      const asked = (meant.length ? meant : typed).slice(0, 12).map(fitting).filter(({ size }) => size);
      const weights = weigh(asked);
      // Where a word and an everyday phrase lead to one entry, the better of them counts.
      const order = [...weights.keys()].filter((at) => weights[at]).sort((a, b) => weights[b] - weights[a] || a - b);
      const found = [...new Set(order.map((at) => ways[at - entries.length] ?? at))];
      return { best: found.slice(0, MOST).map(hit), found: found.length };
    },

    nearest(word) {
      const [[lists] = []] = slipped(word, Math.min(Math.ceil(word.length / 2), 4), true);
      return lists && forms.find((form) => form[1] === lists)?.[0];
    },
  };
})(globalThis.finder);

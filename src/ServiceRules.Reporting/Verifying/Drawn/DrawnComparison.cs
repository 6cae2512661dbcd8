using ServiceRules.Reporting.Verifying.Shape;

namespace ServiceRules.Reporting.Verifying.Drawn;

/// <summary>
/// Holds a file against the one that its documents give, object by object from the two roots. Everything must be the
/// same: pages and their order, every mark, fonts down to the outlines, notes, structure, description, attachments.
/// Left out is only what cannot follow from the documents: the signature itself, and what the writer draws by lot
/// (file identifiers, the six letters before a font's name). How a stream is compressed says nothing either.
/// </summary>
internal sealed class DrawnComparison
{
    /// <summary>Longest content of a compressed stream; only fonts are compressed.</summary>
    private const int UnpackedMax = 4 * 1024 * 1024;

    private readonly DrawnFile _found;
    private readonly DrawnFile _drawn;
    private readonly Dictionary<int, int> _pairs = [];
    private readonly HashSet<int> _taken = [];
    private readonly Stack<string> _keys = new();
    private int? _page;
    private DrawnDifference? _difference;

    private DrawnComparison(DrawnFile found, DrawnFile drawn)
    {
        _found = found;
        _drawn = drawn;
    }

    /// <summary>The first difference in plain words, or null.</summary>
    public static string? Fault(DrawnFile found, DrawnFile drawn) =>
        new DrawnComparison(found, drawn).Fault();

    private string? Fault()
    {
        if (_found.Pages() is not { } pages || _drawn.Pages() is not { } again)
        {
            return "the pages are not in one plain list";
        }
        if (pages.Count != again.Count)
        {
            return $"the file has {pages.Count} pages, the attached documents give {again.Count}";
        }
        if (!SamePages(pages, again) || !SameRoots())
        {
            return Told(_difference!);
        }
        return _found.Table.Objects.Count == _drawn.Table.Objects.Count
            ? null
            : $"the file holds {_found.Table.Objects.Count} objects, a report drawn anew {_drawn.Table.Objects.Count}";
    }

    private string Told(DrawnDifference difference) =>
        difference is { IsInMarks: true, Page: { } page }
        && DrawnWords.Parting(_found, _drawn, page) is var (found, expected)
            ? $"{difference}: it says `{found}` where they give `{expected}`"
            : difference.ToString();

    /// <summary>Page by page first, so that a difference is told by the page where it is seen.</summary>
    private bool SamePages(IReadOnlyList<PdfObject> pages, IReadOnlyList<PdfObject> again)
    {
        for (var index = 0; index < pages.Count; index++)
        {
            _page = index + 1;
            var (one, two) = (pages[index].Dictionary!, again[index].Dictionary!);
            var same =
                Within("Contents", () => Same(one["Contents"], two["Contents"]))
                && Within("Annots", () => SameKind(one["Annots"], two["Annots"]))
                && one.Entries.Keys.Union(two.Entries.Keys)
                    .Where(key => key is not ("Parent" or "Annots"))
                    .All(key => Within(key, () => Same(one[key], two[key])));
            if (!same)
            {
                return false;
            }
        }
        _page = null;
        return true;
    }

    /// <summary>The field of the signature leads to all else: here only whether there is one and no more.</summary>
    private bool SameKind(PdfValue? one, PdfValue? two) =>
        (one as PdfValue.Array)?.Items.Length == (two as PdfValue.Array)?.Items.Length || Differ();

    private bool SameRoots() =>
        Within("Info", () => Same(_found.Table.Trailer["Info"], _drawn.Table.Trailer["Info"]))
        && Within("Root", () => Same(_found.Table.Trailer["Root"], _drawn.Table.Trailer["Root"]));

    private bool Within(string key, Func<bool> same)
    {
        _keys.Push(key);
        var result = same();
        _ = _keys.Pop();
        return result;
    }

    private bool Differ()
    {
        _difference ??= new DrawnDifference(_page, [.. _keys.Reverse()]);
        return false;
    }

    private bool Same(PdfValue? one, PdfValue? two) =>
        (one, two) switch
        {
            (null, null) => true,
            (PdfValue.Reference a, PdfValue.Reference b) => SameObject(a, b),
            (PdfValue.Dictionary a, PdfValue.Dictionary b) => SameDictionary(a, b),
            (PdfValue.Array a, PdfValue.Array b) => SameArray(a, b),
            (PdfValue.Literal a, PdfValue.Literal b) => a.Bytes.AsSpan().SequenceEqual(b.Bytes.AsSpan())
                || Differ(),
            (PdfValue.Hex a, PdfValue.Hex b) => _found[a.Start..a.End]
                .Span.SequenceEqual(_drawn[b.Start..b.End].Span) || Differ(),
            (PdfValue.Name a, PdfValue.Name b) => a == b || SameFontName(a.Spelling, b.Spelling) || Differ(),
            (PdfValue.Word a, PdfValue.Word b) => a == b || Differ(),
            (PdfValue.Number a, PdfValue.Number b) => a == b || Differ(),
            _ => Differ(),
        };

    private bool SameFontName(string one, string two) =>
        _keys.Peek() is "BaseFont" or "FontName"
        && HasTag(one)
        && HasTag(two)
        && one.AsSpan(7).SequenceEqual(two.AsSpan(7));

    private static bool HasTag(string name) =>
        name.Length > 7 && name[6] == '+' && name.AsSpan(0, 6).IndexOfAnyExceptInRange('A', 'Z') < 0;

    private bool SameArray(PdfValue.Array one, PdfValue.Array two)
    {
        if (one.Items.Length != two.Items.Length)
        {
            return Differ();
        }
        for (var index = 0; index < one.Items.Length; index++)
        {
            if (!Same(one.Items[index], two.Items[index]))
            {
                return false;
            }
        }
        return true;
    }

    private bool SameDictionary(PdfValue.Dictionary one, PdfValue.Dictionary two)
    {
        foreach (var key in one.Entries.Keys.Union(two.Entries.Keys))
        {
            if (!LeftOut(key, two) && !Within(key, () => Same(one[key], two[key])))
            {
                return false;
            }
        }
        return true;
    }

    private static bool LeftOut(string key, PdfValue.Dictionary drawn) =>
        key switch
        {
            "Contents" or "ByteRange" => drawn.IsType("Sig"),
            "Length" => IsPacked(drawn),
            _ => false,
        };

    private static bool IsPacked(PdfValue.Dictionary stream) => stream.NameOf("Filter") == "FlateDecode";

    private bool SameObject(PdfValue.Reference one, PdfValue.Reference two)
    {
        if (_found.Table.Find(one) is not { } found || _drawn.Table.Find(two) is not { } drawn)
        {
            return Differ();
        }
        // One object of the one stands for one of the other, everywhere: then shape and order are the same too.
        if (_pairs.TryGetValue(found.Number, out var before))
        {
            return before == drawn.Number || Differ();
        }
        if (!_taken.Add(drawn.Number))
        {
            return Differ();
        }
        _pairs.Add(found.Number, drawn.Number);
        return Same(found.Value, drawn.Value) && (SameStream(found, drawn) || Differ());
    }

    private bool SameStream(PdfObject found, PdfObject drawn)
    {
        if (found.Stream is not { } here || drawn.Stream is not { } there)
        {
            return found.Stream is null && drawn.Stream is null;
        }
        var (one, two) = (_found[here], _drawn[there]);
        if (one.Span.SequenceEqual(two.Span))
        {
            return true;
        }
        if (IsPacked(drawn.Dictionary!))
        {
            return DrawnStream.Unpacked(two, UnpackedMax) is { } expected
                && DrawnStream.Unpacked(one, expected.Length) is { } content
                && content.AsSpan().SequenceEqual(expected);
        }
        return drawn.Dictionary!.IsType("Metadata")
            && DrawnStream.WithoutIdentifiers(one.Span) == DrawnStream.WithoutIdentifiers(two.Span);
    }
}

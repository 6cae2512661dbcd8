using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;
using ServiceRules.Reporting.Verifying.Shape;

namespace ServiceRules.Reporting.Verifying.Drawn;

/// <summary>
/// The words of one page in the order of the drawing, to tell a person where two pages part. Nothing is decided by it:
/// that they differ is known from their bytes.
/// </summary>
internal static partial class DrawnWords
{
    private const int LengthMax = 60;

    /// <summary>What the file says at the first words that differ, and what it should say; null when all words agree.</summary>
    public static (string Found, string Expected)? Parting(DrawnFile found, DrawnFile drawn, int page)
    {
        var letters = new Dictionary<string, Dictionary<string, char>>(StringComparer.Ordinal);
        var expected = Words(drawn, page);
        var here = Words(found, page);
        for (var index = 0; index < Math.Max(here.Count, expected.Count); index++)
        {
            var (one, two) = (here.ElementAtOrDefault(index), expected.ElementAtOrDefault(index));
            if (one != two)
            {
                return (Told(one), Told(two));
            }
        }
        return null;

        string Told((string Font, string Glyphs) words)
        {
            if (words.Glyphs is null)
            {
                return "";
            }
            if (!letters.TryGetValue(words.Font, out var map))
            {
                map = Letters(drawn, page, words.Font);
                // Letters that only the file uses: what it says of them itself is better than nothing.
                foreach (var (glyph, letter) in Letters(found, page, words.Font))
                {
                    _ = map.TryAdd(glyph, letter is >= ' ' and <= '~' ? letter : '?');
                }
                letters.Add(words.Font, map);
            }
            var text = words.Glyphs.Chunk(4).Select(glyph => map.GetValueOrDefault(new string(glyph), '?'));
            return new string([.. text.Take(LengthMax)]);
        }
    }

    /// <summary>Each run of glyphs, four digits to a glyph, with the name of its font.</summary>
    private static List<(string Font, string Glyphs)> Words(DrawnFile file, int page)
    {
        var words = new List<(string, string)>();
        var font = "";
        foreach (Match match in Shown().Matches(Text(file, file.Pages()?[page - 1].Dictionary?["Contents"])))
        {
            if (match.Groups["font"] is { Success: true } set)
            {
                font = set.Value;
            }
            else
            {
                words.Add((font, match.Groups["glyphs"].Value.Replace("\n", "", StringComparison.Ordinal)));
            }
        }
        return words;
    }

    private static Dictionary<string, char> Letters(DrawnFile file, int page, string font)
    {
        var table = file.Table;
        var fonts = table.Resolve(table.Resolve(file.Pages()?[page - 1].Dictionary?["Resources"])?["Font"]);
        var map = Text(file, table.Resolve(fonts?[font])?["ToUnicode"]);
        return Mapped()
            .Matches(map)
            .DistinctBy(match => match.Groups[1].Value)
            .ToDictionary(
                match => match.Groups[1].Value,
                match =>
                    (char)
                        ushort.Parse(
                            match.Groups[2].Value,
                            NumberStyles.AllowHexSpecifier,
                            CultureInfo.InvariantCulture
                        ),
                StringComparer.Ordinal
            );
    }

    private static string Text(DrawnFile file, PdfValue? reference) =>
        file.Table.Find(reference) is { Stream: { } range }
            ? Encoding.Latin1.GetString(file[range].Span)
            : "";

    [GeneratedRegex(@"/(?<font>F\d+) [\d.]+ Tf|<(?<glyphs>[0-9A-F\n]+)> Tj", RegexOptions.NonBacktracking)]
    private static partial Regex Shown();

    [GeneratedRegex("<([0-9A-F]{4})><[0-9A-F]{4}><([0-9A-F]{4})>", RegexOptions.NonBacktracking)]
    private static partial Regex Mapped();
}

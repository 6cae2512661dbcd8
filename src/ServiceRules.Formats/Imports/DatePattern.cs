namespace ServiceRules.Formats.Imports;

/// <summary>How days and times are written in a table: a few signs that mean one thing each.</summary>
internal static class DatePattern
{
    public const string DayForms = "`yyyy`, `M` or `MM`, and `d` or `dd`, each once, such as `dd/MM/yyyy`";

    public const string TimeForms =
        "those of a day with `H` or `HH` (or `h` or `hh` with `tt`), `mm`, and if there are any `ss` and `zzz`, each once, "
        + "such as `dd/MM/yyyy HH:mm`";

    /// <summary>The letters, and what stands between them.</summary>
    public const string Signs = @"[yMdHhmstzT ./:,\-]+";

    private static readonly string[] DayOnly = ["yyyy", "M", "MM", "d", "dd"];
    private static readonly string[] OfTimes = [.. DayOnly, "H", "HH", "h", "hh", "mm", "ss", "tt", "zzz"];

    /// <summary>Whether it tells a day, and nothing more.</summary>
    public static bool IsDay(string pattern) => HasDay(Runs(pattern), DayOnly);

    /// <summary>Whether it tells a day and a time of it, and nothing twice.</summary>
    public static bool IsTime(string pattern)
    {
        var runs = Runs(pattern);
        var twelve = runs.Exists(run => run[0] == 'h');
        return HasDay(runs, OfTimes)
            && runs.Count(run => run[0] is 'H' or 'h') == 1
            && runs.Contains("mm")
            && twelve == runs.Contains("tt");
    }

    /// <summary>Whether the offset of a time stands in the cell.</summary>
    public static bool HasOffset(string pattern) => pattern.Contains('z', StringComparison.Ordinal);

    private static bool HasDay(List<string> runs, string[] known) =>
        runs.TrueForAll(run => known.Contains(run))
        && runs.DistinctBy(run => run[0]).Count() == runs.Count
        && runs.Contains("yyyy")
        && runs.Exists(run => run[0] == 'M')
        && runs.Exists(run => run[0] == 'd');

    private static List<string> Runs(string pattern)
    {
        List<string> runs = [];
        for (int at = 0; at < pattern.Length; )
        {
            int end = at;
            while (end < pattern.Length && pattern[end] == pattern[at])
            {
                end++;
            }

            if (char.IsAsciiLetter(pattern[at]) && pattern[at] != 'T')
            {
                runs.Add(pattern[at..end]);
            }

            at = end;
        }

        return runs;
    }
}

using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Application.Comparing;

/// <summary>How many flips there were of what: counts only, however many records went by.</summary>
public sealed class ComparedTotals
{
    /// <summary>Stands for what has none: no gauge was read, no area is named.</summary>
    public const string None = "-";

    private readonly SortedDictionary<string, RuleTotal> byRule = new(StringComparer.Ordinal);
    private readonly SortedDictionary<string, int> bySheet = new(StringComparer.Ordinal);
    private readonly SortedDictionary<string, int> byGauge = new(StringComparer.Ordinal);
    private readonly SortedDictionary<string, int> byArea = new(StringComparer.Ordinal);
    private readonly SortedDictionary<ChangeKind, int> byCause = [];
    private readonly Dictionary<(Disposition?, Disposition?), int> jobs = [];

    /// <summary>Records judged by both.</summary>
    public int Records { get; private set; }

    /// <summary>Records of which something would come out otherwise.</summary>
    public int Changed { get; private set; }

    /// <summary>Flips.</summary>
    public int Flips { get; private set; }

    /// <summary>By rule.</summary>
    public IReadOnlyDictionary<string, RuleTotal> ByRule => byRule;

    /// <summary>By limit sheet: one flip on the units together counts for each of their kinds.</summary>
    public IReadOnlyDictionary<string, int> BySheet => bySheet;

    /// <summary>By gauge: one flip counts for each gauge that was read for it.</summary>
    public IReadOnlyDictionary<string, int> ByGauge => byGauge;

    /// <summary>By area of the machine.</summary>
    public IReadOnlyDictionary<string, int> ByArea => byArea;

    /// <summary>By cause: one flip counts for each of its causes.</summary>
    public IReadOnlyDictionary<ChangeKind, int> ByCause => byCause;

    /// <summary>Jobs by what was and what would be their disposition, where these differ; null: cannot be judged.</summary>
    public IEnumerable<(Disposition? Was, Disposition? WouldBe, int Jobs)> Jobs =>
        jobs.OrderBy(one => one.Key.Item1)
            .ThenBy(one => one.Key.Item2)
            .Select(one => (one.Key.Item1, one.Key.Item2, one.Value));

    internal void Add(RecordCompared record)
    {
        Records++;
        if (!record.HasChanged)
        {
            return;
        }

        Changed++;
        var (was, wouldBe) = (record.Was?.Job.Disposition, record.WouldBe?.Job.Disposition);
        if (was != wouldBe)
        {
            jobs[(was, wouldBe)] = jobs.GetValueOrDefault((was, wouldBe)) + 1;
        }

        foreach (var flip in record.Flips)
        {
            Flips++;
            Count(byArea, [record.Record.Machine.Area ?? None]);
            Count(bySheet, flip.Sheets.IsEmpty ? [None] : flip.Sheets);
            Count(byGauge, flip.Gauges.IsEmpty ? [None] : flip.Gauges);
            Count(byCause, flip.Causes.Select(cause => cause.Kind));
            byRule[flip.Rule] = (byRule.GetValueOrDefault(flip.Rule) ?? new(flip.Title)).With(flip);
        }
    }

    private static void Count<T>(SortedDictionary<T, int> totals, IEnumerable<T> keys)
        where T : notnull
    {
        foreach (var key in keys)
        {
            totals[key] = totals.GetValueOrDefault(key) + 1;
        }
    }
}

using System.Collections.Concurrent;
using System.Globalization;
using System.Text;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Oracle;
using ServiceRules.Oracle.SafeWork;
using Xunit.Abstractions;

namespace ServiceRules.Engine.Tests.SafeWork;

/// <summary>
/// The product against a naive evaluator written from the clause table and the written meaning alone, on random timelines of
/// one to four people and one to six energy sources: shuffled, cut short, with steps missing, late or by others, and with more
/// beside them (<see cref="Beside"/>). A failure shows the shortest timeline on which they still disagree, row by row;
/// <c>DIFFERENTIAL_SEED</c> and <c>DIFFERENTIAL_COUNT</c> take other jobs, <c>SERVICERULES_LONG=1</c> all ten thousand.
/// </summary>
public sealed class SafeWorkDifferentialTests(ITestOutputHelper output)
{
    private const int All = 10_000;
    private const int EachRun = 4_000;
    private const int Shown = 8;
    private const int OfAKind = 3;

    private static readonly int Seeds = int.Parse(
        Environment.GetEnvironmentVariable("DIFFERENTIAL_COUNT") ?? $"{(IsLong ? All : EachRun)}",
        CultureInfo.InvariantCulture
    );

    private static readonly int First = int.Parse(
        Environment.GetEnvironmentVariable("DIFFERENTIAL_SEED") ?? "0",
        CultureInfo.InvariantCulture
    );

    private static bool IsLong => Environment.GetEnvironmentVariable("SERVICERULES_LONG") == "1";

    [Fact]
    public void Assess_RandomTimelines_AgreesWithTheClauseTableOnEveryRow()
    {
        ConcurrentBag<Compared> all = [];
        ConcurrentBag<(Beside Kind, bool Turns)> beside = [];
        Parallel.For(
            First,
            First + Seeds,
            () => new RuleEngine(),
            (seed, _, engine) =>
            {
                List<Compared> rows = [.. Compare(engine, seed)];
                foreach (var one in rows)
                {
                    all.Add(one);
                }

                foreach (var kind in Widening.Kinds.Where(kind => seed % 8 == 0 && Widening.Has(seed, kind)))
                {
                    beside.Add((kind, Turns(engine, seed, kind, rows)));
                }

                return engine;
            },
            _ => { }
        );

        int compared = all.Count;
        int decided = all.Count(one => one.IsDecided);
        SortedDictionary<string, List<int>> faults = new(
            all.Where(one => !one.Possible.Allows(one.Found))
                .GroupBy(one => one.Row, one => one.Seed)
                .ToDictionary(faulty => faulty.Key, faulty => faulty.Order().ToList()),
            StringComparer.Ordinal
        );
        output.WriteLine($"{compared} rows compared, {decided} of them decided");
        foreach (
            var seen in all.GroupBy(one => $"{one.Row} {one.Found}")
                .OrderBy(g => g.Key, StringComparer.Ordinal)
        )
        {
            output.WriteLine($"{seen.Count(), 6} {seen.Key}, {seen.Count(one => one.IsDecided)} decided");
        }

        foreach (var kind in Widening.Kinds)
        {
            var with = beside.Where(one => one.Kind == kind).ToList();
            int turned = with.Count(one => one.Turns);
            output.WriteLine($"{kind}: some verdict turned in {turned} of {with.Count} jobs");
            Assert.True(
                turned * 5 > with.Count,
                $"{kind} turned a verdict in {turned} of {with.Count} jobs only"
            );
        }

        Assert.True(decided * 10 > compared * 8, $"only {decided} of {compared} rows were decided");
        Assert.True(faults.Count == 0, Report(new RuleEngine(), faults));
    }

    private static IEnumerable<Compared> Compare(RuleEngine engine, int seed)
    {
        var (record, context) = Widening.From(seed);
        var opinions = SafeWorkOpinion.WithBeyond(record, context);
        return CitedRules
            .Rows(engine, record, context)
            .Where(row => opinions.ContainsKey(row.Key))
            .Select(row => new Compared(seed, row.Key, opinions[row.Key], row.Value.Verdict));
    }

    /// <summary>
    /// Whether some verdict would be wrong, by the second opinion too, if the product did not see what stands beside the job.
    /// </summary>
    private static bool Turns(RuleEngine engine, int seed, Beside kind, List<Compared> with)
    {
        var (record, context) = Widening.Without(seed, kind);
        var without = CitedRules.Rows(engine, record, context);
        return with.Exists(one => !one.Possible.Allows(without[one.Row].Verdict));
    }

    private static string Report(RuleEngine engine, SortedDictionary<string, List<int>> faults)
    {
        var text = new StringBuilder();
        foreach (var (row, seeds) in faults)
        {
            text.AppendLine(CultureInfo.InvariantCulture, $"{row}: {seeds.Count} disagreements");
        }

        foreach (var (row, seeds) in faults)
        {
            Dictionary<string, int> kinds = new(StringComparer.Ordinal);
            foreach (int seed in seeds)
            {
                var (record, context) = Widening.From(seed);
                var (possible, found) = Both(engine, row, record, context);
                string kind = $"{possible} {found.Verdict}";
                int shown = kinds[kind] = kinds.GetValueOrDefault(kind) + 1;
                if (kinds.Count <= Shown && shown <= OfAKind)
                {
                    var least = Least(engine, row, record, context);
                    var (_, again) = Both(engine, row, least, context);
                    text.AppendLine(
                        CultureInfo.InvariantCulture,
                        $"\n{row}, seed {seed}: the table allows {possible}, found {again.Verdict}: {again.Statement}"
                    );
                    text.Append(Told.Of(least, context));
                }
            }
        }

        return text.ToString();
    }

    private sealed record Compared(int Seed, string Row, Possible Possible, Verdict Found)
    {
        /// <summary>Whether the table tells a breach from none.</summary>
        public bool IsDecided => Possible == Possible.NotMet || !Possible.HasFlag(Possible.NotMet);
    }

    /// <summary>Without every event that the disagreement does not need.</summary>
    private static ServiceRecord Least(
        RuleEngine engine,
        string row,
        ServiceRecord record,
        AssessmentContext context
    )
    {
        var (possible, found) = Both(engine, row, record, context);
        bool shorter = true;
        while (shorter)
        {
            shorter = false;
            for (int at = record.Timeline.Length - 1; at >= 0; at--)
            {
                var less = record with { Timeline = record.Timeline.RemoveAt(at) };
                var (still, now) = Both(engine, row, less, context);
                if (still == possible && now.Verdict == found.Verdict)
                {
                    record = less;
                    shorter = true;
                }
            }
        }

        return record;
    }

    private static (Possible Possible, (Verdict Verdict, string Statement) Found) Both(
        RuleEngine engine,
        string row,
        ServiceRecord record,
        AssessmentContext context
    ) =>
        (
            SafeWorkOpinion.WithBeyond(record, context)[row],
            CitedRules.Rows(engine, record, context).GetValueOrDefault(row, (Verdict.NotApplicable, ""))
        );
}

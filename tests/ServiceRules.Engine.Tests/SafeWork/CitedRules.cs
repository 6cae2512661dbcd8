using System.Collections.Immutable;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Engine.Tests.Differential;
using ServiceRules.Formats.Packs;
using ServiceRules.Oracle.SafeWork;
using ServiceRules.Rules.Model;
using ServiceRules.TestKit;

namespace ServiceRules.Engine.Tests.SafeWork;

/// <summary>The base rules about safe work, by the rows of the clause table that the United States pack cites for them.</summary>
internal static class CitedRules
{
    private static readonly AssessmentDigests Digests = new("sha256:r", "sha256:c", "sha256:safe-work");

    private static readonly AssessmentDigests DigestsWithoutCredibility = Digests with
    {
        Packs = "sha256:safe-work-believed",
    };

    private static ImmutableArray<Citation> Citations { get; } =
    [
        .. Directory
            .GetFiles(ReferenceFiles.InRepository("rules", "us-29-cfr-1910-147"), "*.citations.json")
            .Order(StringComparer.Ordinal)
            .SelectMany(file =>
                RulePackFormat.Citations.Read(File.ReadAllBytes(file)).TryGet(out var read, out var problems)
                    ? read.Citations
                    : throw new InvalidDataException($"{file}: {problems}")
            ),
    ];

    /// <summary>Each row with the rule that speaks for it.</summary>
    private static readonly ImmutableArray<(string Row, string Rule)> Answers =
    [
        .. Citations.SelectMany(cited => cited.Rows.Select(row => (row, cited.Rule.Text))),
        .. CredibilityRules.ByRow.Select(row => (row.Key, row.Value)),
        .. SafeWorkOpinion.BeyondTheTable.Select(rule => (rule, rule)),
    ];

    /// <summary>Rules that carry a row of the table, and every other duty of energy control.</summary>
    public static ImmutableArray<Rule> Rules { get; } =
    [
        .. Shelf.Rules.Where(rule =>
            rule.Check is Check.EnergyControl || Answers.Any(answer => answer.Rule == rule.Id.Text)
        ),
    ];

    private static RuleBook Book { get; } = Shelf.Book(Rules);

    private static RuleBook BookWithoutCredibility { get; } =
        Shelf.Book([
            .. Rules.Where(rule => !IsAboutCredibility(rule)),
            .. Shelf.Rules.Where(rule => rule.Check is Check.Protection),
        ]);

    /// <summary>The verdict of each row that a rule speaks for: the worst of its rules.</summary>
    public static Dictionary<string, (Verdict Verdict, string Statement)> Rows(
        RuleEngine engine,
        ServiceRecord record,
        AssessmentContext context
    )
    {
        Dictionary<string, (Verdict, string)> rows = new(StringComparer.Ordinal);
        var findings = engine.Assess(record, context, Book, Digests).Findings;
        foreach (var (row, rule) in Answers)
        {
            var worst = findings
                .Where(f => f.Rule == rule)
                .Select(f => (f.Verdict, f.Statement))
                .Append((Verdict: Verdict.NotApplicable, Statement: ""))
                .MaxBy(f => Weight(f.Verdict));
            if (!rows.TryGetValue(row, out var known) || Weight(worst.Verdict) > Weight(known.Item1))
            {
                rows[row] = worst;
            }
        }

        return rows;
    }

    /// <summary>
    /// Judged without what only weighs how far a record can be believed, and by the rule of the protected interval as well.
    /// </summary>
    public static Assessment AssessBelieved(
        RuleEngine engine,
        ServiceRecord record,
        AssessmentContext context
    ) => engine.Assess(record, context, BookWithoutCredibility, DigestsWithoutCredibility);

    private static bool IsAboutCredibility(Rule rule) =>
        rule.Check is Check.Credibility || CredibilityRules.ByRow.Values.Contains(rule.Id.Text);

    private static int Weight(Verdict verdict) =>
        verdict switch
        {
            Verdict.NotMet => 3,
            Verdict.Unproven => 2,
            Verdict.Met => 1,
            _ => 0,
        };
}

using System.Globalization;
using System.Text;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Formats.Records;
using ServiceRules.Oracle;
using ServiceRules.Rules.Model;
using Xunit.Abstractions;

namespace ServiceRules.Engine.Tests.Differential;

/// <summary>The engine against a second, stupider evaluator, on fixtures changed at random. A failure names its seed.</summary>
public class DifferentialTests(ITestOutputHelper output)
{
    private const int Seeds = 600;

    // Each of these packs, and each rule alone, is compiled anew: fewer suffice, and the build does not wait.
    private const int PackSeeds = 250;

    private const int AloneSeeds = 12;

    [Fact]
    public void Assess_RandomJobs_AgreesWithTheSecondOpinionOnEveryFinding()
    {
        var engine = new RuleEngine();
        var faults = new List<string>();
        int compared = 0;
        int sure = 0;
        Dictionary<string, int> opinions = [];
        foreach (int seed in FirstSeed())
        {
            if (RandomJob.From(seed) is not { } job)
            {
                continue;
            }

            // Mostly as shipped; the other ways of deciding in turn.
            int way = seed % 6 < 4 ? 0 : (seed % 6) - 3;
            var rules = Shelf.Ways[way];
            var book = Shelf.Book(rules);
            var digests = new AssessmentDigests(
                "sha256:r",
                "sha256:c",
                string.Create(CultureInfo.InvariantCulture, $"sha256:way-{way}")
            );
            var assessment = engine.Assess(job.Record, job.Context, book, digests);
            var found = assessment.Findings.ToDictionary(f => (f.Rule, f.Subject.Key));
            foreach (var (rule, unit, key) in Subjects(rules, job.Record))
            {
                var possible = SecondOpinion.On(rule, job.Record, job.Context, book, unit);
                found.TryGetValue((rule.Id.Text, key), out var finding);
                var verdict = finding?.Verdict ?? Verdict.NotApplicable;
                // Duties of safe work have a second opinion of their own, written from the clause table.
                compared += rule.Check is Check.EnergyControl ? 0 : 1;
                if (possible.IsSure() && verdict != Verdict.NotApplicable)
                {
                    sure++;
                    string what = $"{rule.Id} {verdict}";
                    opinions[what] = opinions.GetValueOrDefault(what) + 1;
                }

                // What the tasks do not ask for is not missed where it is missing.
                bool isNotMissed =
                    verdict == Verdict.NotApplicable
                    && possible.Allows(Verdict.Unproven)
                    && !WhatFollows.IsAsked(
                        rule,
                        unit is null ? new Subject.Set() : new Subject.Unit(unit.Id),
                        job.Record
                    );
                if (!possible.Allows(verdict) && !isNotMissed)
                {
                    faults.Add(Fault(seed, rule, key, possible, verdict, finding, job.Record, unit));
                }
            }
        }

        output.WriteLine($"{compared} compared, {sure} of them judged for certain");
        foreach (var (what, count) in opinions.OrderBy(o => o.Key, StringComparer.Ordinal))
        {
            output.WriteLine($"{count, 6} {what}");
        }

        Assert.True(sure * 5 > compared, $"only {sure} of {compared} findings were judged for certain");
        Assert.True(
            faults.Count == 0,
            $"{faults.Count} disagreements\n" + string.Join("\n\n", faults.Take(Shown))
        );
    }

    [Fact]
    public void Assess_RandomJobsAndPacks_FollowsAsTheSecondOpinionDoes()
    {
        var engine = new RuleEngine();
        var faults = new List<string>();
        int compared = 0;
        foreach (int seed in FirstSeed().Take(PackSeeds))
        {
            if (RandomJob.From(seed) is not { } job)
            {
                continue;
            }

            var rules = RandomPack.Of(seed);
            var assessment = engine.Assess(
                job.Record,
                job.Context,
                Shelf.Book(rules),
                new("sha256:r", "sha256:c", $"sha256:{seed}")
            );
            var byId = rules.ToDictionary(r => r.Id.Text);
            foreach (var finding in assessment.Findings)
            {
                string? unit = finding.Subject is Subject.Unit on ? on.Id.Text : null;
                var effect = WhatFollows.Effect(
                    byId[finding.Rule],
                    finding.Verdict,
                    unit,
                    job.Record,
                    job.Context
                );
                compared++;
                if (effect != finding.Effect)
                {
                    faults.Add(
                        $"seed {seed}: `{finding.Rule}` on {finding.Subject.Key} is {finding.Verdict}: second opinion {effect}, engine {finding.Effect}"
                    );
                }
            }

            faults.AddRange(Dispositions(seed, job.Record, assessment, byId).Where(f => f.Length > 0));
        }

        output.WriteLine($"{compared} effects compared");
        Assert.True(
            faults.Count == 0,
            $"{faults.Count} disagreements\n" + string.Join("\n\n", faults.Take(Shown))
        );
    }

    [Fact]
    public void Assess_EachRuleAloneAndAllShuffled_FindsTheSame()
    {
        var faults = new List<string>();
        int compared = 0;
        foreach (int seed in FirstSeed().Take(AloneSeeds))
        {
            if (RandomJob.From(seed) is not { } job)
            {
                continue;
            }

            Rule[] shuffled = [.. Shelf.Rules];
            new Random(seed).Shuffle(shuffled);
            var together = new RuleEngine()
                .Assess(job.Record, job.Context, Shelf.Book(shuffled), Jobs.Digests)
                .Findings.ToLookup(f => f.Rule);
            var engine = new RuleEngine();
            foreach (var rule in shuffled)
            {
                var alone = engine.Assess(
                    job.Record,
                    job.Context,
                    Shelf.Book([rule]),
                    new("sha256:r", "sha256:c", rule.Id.Text)
                );
                compared++;
                string one = Told(alone.Findings);
                string many = Told(together[rule.Id.Text]);
                if (one != many)
                {
                    faults.Add($"seed {seed}: `{rule.Id}`: alone {one}, with the others {many}");
                }
            }
        }

        output.WriteLine($"{compared} rules compared");
        Assert.True(
            faults.Count == 0,
            $"{faults.Count} disagreements\n" + string.Join("\n\n", faults.Take(Shown))
        );
    }

    private static string Told(IEnumerable<Finding> findings) =>
        string.Join(
            "; ",
            findings
                .OrderBy(f => f.Subject.Key, StringComparer.Ordinal)
                .Select(f => $"{f.Subject.Key} {f.Verdict} {f.Reason} {f.Effect} {f.Statement}")
        );

    private static IEnumerable<string> Dispositions(
        int seed,
        ServiceRecord record,
        Assessment assessment,
        Dictionary<string, Rule> byId
    )
    {
        var findings = assessment
            .Findings.Select(f =>
                (
                    f.Effect,
                    f.Severity,
                    f.Subject,
                    WhatFollows.IsAsked(byId[f.Rule], f.Subject, record) ? f.Verdict : Verdict.NotApplicable
                )
            )
            .ToList();
        foreach (var unit in assessment.Units)
        {
            var expected = WhatFollows.Unit(findings, unit.Unit, record);
            yield return expected == unit.Outcome.Disposition
                ? ""
                : $"seed {seed}: {unit.Unit}: second opinion {expected}, engine {unit.Outcome.Disposition} because {string.Join(", ", unit.Outcome.Because)}";
        }

        var job = WhatFollows.Job(findings, record);
        yield return job == assessment.Job.Disposition
            ? ""
            : $"seed {seed}: job: second opinion {job}, engine {assessment.Job.Disposition} because {string.Join(", ", assessment.Job.Because)}";
        var set = WhatFollows.Set(findings, record);
        yield return set == assessment.Set.Disposition
            ? ""
            : $"seed {seed}: set: second opinion {set}, engine {assessment.Set.Disposition} because {string.Join(", ", assessment.Set.Because)}";
    }

    private static int Shown =>
        int.Parse(
            Environment.GetEnvironmentVariable("DIFFERENTIAL_SHOWN") ?? "5",
            CultureInfo.InvariantCulture
        );

    private static IEnumerable<int> FirstSeed()
    {
        int first = int.Parse(
            Environment.GetEnvironmentVariable("DIFFERENTIAL_SEED") ?? "1",
            CultureInfo.InvariantCulture
        );
        int count = int.Parse(
            Environment.GetEnvironmentVariable("DIFFERENTIAL_COUNT") ?? $"{Seeds}",
            CultureInfo.InvariantCulture
        );
        return Enumerable.Range(first, count);
    }

    private static IEnumerable<(Rule Rule, UnitWork? Unit, string Key)> Subjects(
        IEnumerable<Rule> rules,
        ServiceRecord record
    ) =>
        rules.SelectMany(rule =>
            rule.Scope switch
            {
                RuleScope.Unit => record.Units.Select(u => (rule, (UnitWork?)u, "unit/" + u.Id.Text)),
                RuleScope.Set => [(rule, null, "set")],
                RuleScope.Programme => [(rule, null, "programme")],
                _ => [(rule, (UnitWork?)null, "job")],
            }
        );

    private static string Fault(
        int seed,
        Rule rule,
        string key,
        Possible possible,
        Verdict verdict,
        Finding? finding,
        ServiceRecord record,
        UnitWork? unit
    )
    {
        var told = new StringBuilder();
        told.AppendLine(
            CultureInfo.InvariantCulture,
            $"seed {seed}: `{rule.Id}` on {key}: second opinion {possible}, engine {verdict} ({finding?.Reason}: {finding?.Statement})"
        );
        var shown = unit is null ? record : record with { Units = [unit] };
        told.Append(Encoding.UTF8.GetString(RecordFormat.Current.Write(shown)));
        return told.ToString();
    }
}

using System.Collections.Immutable;
using System.Text;
using System.Text.Json.Nodes;
using ServiceRules.Application.Library;
using ServiceRules.Application.RuleCases;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Formats.Cases;
using ServiceRules.Formats.Packs;
using ServiceRules.Formats.Records;
using ServiceRules.Formats.Registers;
using ServiceRules.Rules.Diagnostics;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.Authoring;

/// <summary>Adds a rule of the site on one quantity of a unit, with a fixture and cases that come out as they say.</summary>
public static class NewRule
{
    private const string Fixtures = "fixtures";

    /// <param name="rules">A folder that is sound and has a site.</param>
    /// <param name="rule">The rule.</param>
    /// <param name="quantity">What its check is about.</param>
    /// <param name="topic">Its file: <c>topic.rules.json</c> in the folder of the site.</param>
    public static AuthoringOutcome Run(LoadedRules rules, Rule rule, MeasuredQuantity quantity, string topic)
    {
        ArgumentNullException.ThrowIfNull(rules);
        ArgumentNullException.ThrowIfNull(rule);
        if (rules.Book.Packs.FirstOrDefault(pack => pack.Rules.Any(one => one.Id == rule.Id)) is { } standing)
        {
            return new AuthoringOutcome.Refused([
                $"there is a rule `{rule.Id}` in the pack `{standing.Id}`; accepted: another identity",
            ]);
        }

        using var draft = FolderDraft.Of(rules.Folder);
        var site = draft.SiteFolder!;
        PutHead(draft, site, rules.Site!.Name);
        var rulesFile = $"{site}/{topic}.rules.json";
        var casesFile = $"{site}/{topic}.cases.json";
        var others = draft.Has(rulesFile) ? draft.Read(rulesFile, RulePackFormat.Rules).Rules : [];
        draft.Put(rulesFile, new RulesFile([.. others, rule]), RulePackFormat.Rules);
        var loaded = draft.Load();
        ImmutableArray<string> wrong =
        [
            .. loaded
                .Diagnostics.Where(remark =>
                    remark.Level is DiagnosticLevel.Error && remark.Code != DiagnosticCode.CaseMissing
                )
                .Select(remark => remark.ToString()),
        ];
        if (!wrong.IsEmpty)
        {
            return new AuthoringOutcome.Refused(wrong);
        }

        var name = rule.Id.Text;
        var shelf = Shelf(draft).ToList();
        var written = WrittenCases.Of(loaded, shelf, rule, quantity, name, out var missing);
        if (written is null)
        {
            return new AuthoringOutcome.Refused([
                $"no cases could be made for `{rule.Id}`: {missing}; accepted: another quantity, attachment, task or sheet; or the rule and its cases by hand, as docs/rule-authoring.md shows",
            ]);
        }

        var promised = draft.Has(casesFile)
            ? draft.Read(casesFile, RuleCasesFormat.Current)
            : new RuleCasesFile(Fixtures, []);
        draft.Put(
            casesFile,
            promised with
            {
                Cases = [.. promised.Cases, .. written.Cases],
            },
            RuleCasesFormat.Current
        );
        PutFixture(draft, $"{site}/{promised.Fixtures}/{name}", written.Fixture);
        var tried = TestRules.Run(draft.Load(), name);
        if (!tried.IsGood)
        {
            throw new InvalidOperationException($"the cases made for `{name}` do not come out as they say");
        }

        var kept = draft.Keep(rules.Diagnostics);
        return kept is AuthoringOutcome.Written done
            ? done with
            {
                Notices = [.. done.Notices, .. Held(loaded.Book, rule, shelf)],
            }
            : kept;
    }

    private static void PutHead(FolderDraft draft, string site, string name)
    {
        var file = $"{site}/pack.json";
        if (!draft.Has(file))
        {
            draft.Put(
                file,
                new RulePack
                {
                    Id = new(site[(site.LastIndexOf('/') + 1)..]),
                    Version = "1.0.0",
                    Title = $"Rules of {name}",
                    Layer = PackLayer.Site,
                    Rules = [],
                },
                RulePackFormat.Head
            );
        }
    }

    private static void PutFixture(FolderDraft draft, string path, Fixture fixture)
    {
        var record = Encoding.UTF8.GetBytes(fixture.Record.ToJsonString());
        var context = Encoding.UTF8.GetBytes(fixture.Context.ToJsonString());
        if (
            RecordFormat.Current.Read(record).TryGet(out var read, out _)
            && ContextFormat.Current.Read(context).TryGet(out var beside, out _)
        )
        {
            draft.Put($"{path}.record.json", read, RecordFormat.Current);
            draft.Put($"{path}.context.json", beside, ContextFormat.Current);
        }
    }

    private static IEnumerable<Fixture> Shelf(FolderDraft draft) =>
        from file in draft.Of(RuleFileKind.FixtureRecord)
        let beside = file.Replace(".record.json", ".context.json", StringComparison.Ordinal)
        where draft.Has(beside)
        let name = file[(file.LastIndexOf('/') + 1)..].Replace(".record.json", "", StringComparison.Ordinal)
        select new Fixture(
            name,
            file,
            JsonNode.Parse(draft.Read(file))!.AsObject(),
            JsonNode.Parse(draft.Read(beside))!.AsObject(),
            ""
        );

    // What others wrote their cases on may not do what the new rule asks.
    private static IEnumerable<string> Held(RuleBook book, Rule rule, List<Fixture> shelf)
    {
        var trial = new CaseTrial(book, rule);
        return shelf
            .Where(fixture =>
                trial.Of(fixture, []) is { IsReleased: false, Effect: Effect.Hold or Effect.Stop }
            )
            .Select(fixture =>
                $"note: the fixture {fixture.File} does not do what `{rule.Id}` asks, so that `rules test` tells it as held; do there what it asks, or let the rule apply to less"
            );
    }
}

using System.Collections.Concurrent;
using System.Collections.Immutable;
using ServiceRules.Application.Library;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Engine;
using ServiceRules.Rules.Checking;
using ServiceRules.Rules.Diagnostics;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.RuleCases.Mutation;

/// <summary>
/// Changes one thing of a folder of rules after another and asks whether a case tells. A change that no case tells, and
/// that the check of the folder lets pass, is one that somebody could make by a slip of the hand and nobody would notice.
/// </summary>
public sealed class MutateRules
{
    private static readonly AssessmentDigests NoDigests = new("", "", "");

    private readonly LoadedRules rules;
    private readonly ImmutableArray<CaseBench> cases;
    private readonly ImmutableArray<FixtureResult> fixtures;
    private readonly RuleEngine whole = new();

    // One for each set of rules that cases hang on, so that what is compiled is kept.
    private readonly ConcurrentDictionary<string, RuleEngine> engines = new(StringComparer.Ordinal);

    private MutateRules(LoadedRules rules, RulesTested tested)
    {
        this.rules = rules;
        cases = CaseBench.Of(tested, rules.Book);
        fixtures = tested.Fixtures;
    }

    /// <summary>Every change that is tried, by file and place.</summary>
    /// <param name="rules">A folder that was loaded.</param>
    /// <param name="rule">Identity text of the only rule to change; absent: all rules and all sheets.</param>
    public static ImmutableArray<Mutant> Mutants(LoadedRules rules, string? rule = null)
    {
        ArgumentNullException.ThrowIfNull(rules);
        var ofRules = rules
            .Library.Packs.SelectMany(pack => pack.Rules)
            .Where(placed => rule is null || placed.Value.Id.Text == rule)
            .Where(placed => !OwnRules.IsReplaced(rules, placed.Value))
            .SelectMany(placed => RuleMutants.Of(rules, placed));
        var ofSheets = rule is null
            ? rules.Library.Sheets.SelectMany(placed => SheetMutants.Of(rules, placed))
            : [];
        return
        [
            .. ofRules
                .Concat(ofSheets)
                .OrderBy(mutant => mutant.Place.File, StringComparer.Ordinal)
                .ThenBy(mutant => mutant.Place.Line)
                .ThenBy(mutant => mutant.Place.Column)
                .ThenBy(mutant => mutant.What, StringComparer.Ordinal),
        ];
    }

    /// <param name="rules">A sound folder.</param>
    /// <param name="tested">What its cases came to: all as they say.</param>
    /// <param name="mutants">The changes to try.</param>
    /// <param name="each">Told each time that one is done.</param>
    /// <param name="stop">When to try no more; those left are told as not tried.</param>
    public static RulesMutated Run(
        LoadedRules rules,
        RulesTested tested,
        ImmutableArray<Mutant> mutants,
        Action each,
        CancellationToken stop
    )
    {
        ArgumentNullException.ThrowIfNull(tested);
        ArgumentNullException.ThrowIfNull(each);
        MutateRules run = new(rules, tested);
        var ends = new MutantTried[mutants.Length];
        Parallel.For(
            0,
            mutants.Length,
            at =>
            {
                ends[at] = stop.IsCancellationRequested
                    ? new(mutants[at], MutantEnd.NotTried, "")
                    : run.Try(mutants[at]);
                each();
            }
        );
        return new([.. ends]);
    }

    private MutantTried Try(Mutant mutant)
    {
        var by = mutant.Sheet is { } sheet ? CaughtOnSheet(mutant, sheet) : CaughtByCaseOf(mutant);
        return by is not null ? new(mutant, MutantEnd.Caught, by)
            : Refusal(mutant) is { } refusal ? new(mutant, MutantEnd.Refused, refusal)
            : Alike(mutant) is { } alike ? new(mutant, MutantEnd.Alike, alike)
            : new(mutant, MutantEnd.Survived, "");
    }

    private string? CaughtByCaseOf(Mutant mutant)
    {
        var (was, changed) = (mutant.Was!, mutant.Rule!);
        RuleEngine engine = new();
        // What another rule says hangs on this one only where it can show a reading stale.
        foreach (
            var one in cases
                .Where(one => one.Rules.Any(rule => ReferenceEquals(rule, was)))
                .OrderBy(one => ReferenceEquals(one.Rule, was) ? 0 : 1)
        )
        {
            if (IsOther(one, () => one.With(was, changed, engine)))
            {
                return Name(one);
            }
        }

        return mutant.Kind is MutationKind.ConditionDropped
            ? KeptFixture(rules.Book with { Packs = [.. rules.Book.Packs.Select(Changed)] }, new())
            : null;

        RulePack Changed(RulePack pack) =>
            pack with
            {
                Rules = [.. pack.Rules.Select(rule => ReferenceEquals(rule, was) ? changed : rule)],
            };
    }

    private string? CaughtOnSheet(Mutant mutant, LimitSheet changed)
    {
        foreach (
            var one in cases
                .Where(one => one.Sheets.Contains(changed.Id.Text) && one.Rule is not null)
                .Where(one => LooksAtUnits(one.Rule!.Check))
                .OrderBy(one => mutant.Limit!.IsAskedBy(one.Rule!.Check) ? 0 : 1)
        )
        {
            var engine = engines.GetOrAdd(one.Built.Promise.Rule, _ => new RuleEngine());
            if (IsOther(one, () => one.With(changed, engine)))
            {
                return Name(one);
            }
        }

        return KeptFixture(rules.Book with { Sheets = ChangedSheets.In(rules.Book, changed) }, whole);
    }

    private string? KeptFixture(RuleBook book, RuleEngine engine)
    {
        foreach (var fixture in fixtures)
        {
            if (
                fixture.Built is var (record, context)
                && !FixtureResult.IsReleasedBy(engine.Assess(record, context, book, NoDigests))
            )
            {
                return $"{fixture.File} no longer comes out released";
            }
        }

        return null;
    }

    private string? Refusal(Mutant mutant)
    {
        var library = rules.Library;
        var changed = mutant.Sheet is { } sheet
            ? library with
            {
                Sheets =
                [
                    .. library.Sheets.Select(placed =>
                        placed.Value.Id == sheet.Id ? placed with { Value = sheet } : placed
                    ),
                ],
            }
            : library with
            {
                Packs = [.. library.Packs.Select(pack => Changed(pack, mutant))],
            };
        return
            PackCheck.Of(changed).FirstOrDefault(remark => remark.Level is DiagnosticLevel.Error) is { } first
            ? $"{first.Code}: {first.What}"
            : null;
    }

    /// <summary>A case that the dropped part alone keeps out, and that comes out not applicable without it too.</summary>
    private string? Alike(Mutant mutant) =>
        mutant.Dropped is { } part
        && cases.FirstOrDefault(one =>
            ReferenceEquals(one.Rule, mutant.Was)
            && one.Built.Promise.Expect is Verdict.NotApplicable
            && one.IsKeptOutBy(part)
        )
            is { } one
            ? Name(one)
            : null;

    private static PlacedPack Changed(PlacedPack pack, Mutant mutant)
    {
        ImmutableArray<Placed<Rule>> own =
        [
            .. pack.Rules.Select(placed =>
                ReferenceEquals(placed.Value, mutant.Was) ? placed with { Value = mutant.Rule! } : placed
            ),
        ];
        return pack with
        {
            Rules = own,
            Pack = pack.Pack with { Rules = [.. own.Select(placed => placed.Value)] },
        };
    }

    // A folder that cannot judge a case at all tells of the change as loudly as one that judges it otherwise.
    private static bool IsOther(CaseBench one, Func<Finding?> judged)
    {
        try
        {
            return one.Built.Outcome(judged()) is not CaseOutcome.AsExpected;
        }
        catch (EngineFaultException)
        {
            return true;
        }
    }

    // Steps, registers and times have nothing to do with the limits of a sheet.
    private static bool LooksAtUnits(Check check) =>
        check
            is not (
                Check.RequiredEvent
                or Check.OrderOfEvents
                or Check.Protection
                or Check.EnergyControl
                or Check.Recency
            );

    private static string Name(CaseBench one) => $"{one.Built.Promise.Rule}: {one.Built.Promise.Name}";
}

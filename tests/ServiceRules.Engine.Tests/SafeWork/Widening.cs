using System.Collections.Immutable;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;

namespace ServiceRules.Engine.Tests.SafeWork;

/// <summary>What stands in a job beside its steps of making safe.</summary>
internal enum Beside
{
    /// <summary>Wedges, props and guards put back.</summary>
    HandSteps,

    /// <summary>Lines of the bench log that say when and by whom.</summary>
    BenchLines,

    /// <summary>Measures that speak of people, and a run in which more of them, or others, have a part.</summary>
    RunPeople,
}

/// <summary>Random jobs as <see cref="Mutation"/> makes them, some with more beside, each kind drawn by itself.</summary>
internal static class Widening
{
    private const int LookEvery = 13;

    private const int BreakEvery = 5;

    public static ImmutableArray<Beside> Kinds { get; } = [.. Enum.GetValues<Beside>()];

    /// <summary>The job of a seed with all that is beside it.</summary>
    public static (ServiceRecord Record, AssessmentContext Context) From(int seed) => Without(seed, null);

    /// <summary>The same job without one of the kinds; the others are as they were.</summary>
    public static (ServiceRecord Record, AssessmentContext Context) Without(int seed, Beside? left)
    {
        var (record, context) = Mutation.From(seed);
        foreach (var kind in Kinds.Where(kind => kind != left && Has(seed, kind)))
        {
            (record, context) = With(record, context, kind, Dice(seed, kind, 2));
        }

        return (
            seed % LookEvery == 0 ? Looks.Of(record, new(seed))
            : seed % BreakEvery == 0 ? Breaks.Of(record, new(seed))
            : record,
            context
        );
    }

    /// <summary>Whether a kind stands beside the job of a seed: beside every third.</summary>
    public static bool Has(int seed, Beside kind) => Dice(seed, kind, 1).Next(3) == 0;

    private static (ServiceRecord Record, AssessmentContext Context) With(
        ServiceRecord record,
        AssessmentContext context,
        Beside kind,
        Random random
    ) =>
        kind switch
        {
            Beside.HandSteps => (HandSteps.Of(record, random), context),
            Beside.BenchLines => BenchLines.Of(record, context, random),
            Beside.RunPeople => RunPeople.Of(record, context, random),
            _ => (record, context),
        };

    private static Random Dice(int seed, Beside kind, int throwOf) =>
        new(unchecked((((seed * 31) + (int)kind) * 31) + throwOf));
}

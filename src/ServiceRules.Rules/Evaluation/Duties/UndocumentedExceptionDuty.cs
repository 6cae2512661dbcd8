using System.Collections.Immutable;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>Where it is claimed that a machine needs no written procedure, all eight facts that this needs hold.</summary>
internal static class UndocumentedExceptionDuty
{
    private const string Act = "Write the procedure of this machine: it does not qualify to do without one.";

    /// <summary>Whether it is claimed and nothing speaks against it.</summary>
    public static bool Holds(DutyFrame duty) => !Claims(duty).IsEmpty && Faults(duty).IsEmpty;

    public static CheckOutcome Judge(DutyFrame duty)
    {
        var claims = Claims(duty);
        if (claims.IsEmpty)
        {
            return TimelineOutcome.NotApplicable("Nobody claims that no written procedure is needed.");
        }

        var entries = claims.Select(made => made.Entry).ToList();
        var faults = Faults(duty);
        return faults.IsEmpty
            ? TimelineOutcome.Met(
                duty.Reading,
                $"{By(claims[^1])} answered all eight questions with yes, and the registers do not gainsay it.",
                entries
            )
            : TimelineOutcome.OfFaults(faults);
    }

    private static ImmutableArray<ClaimMade> Claims(DutyFrame duty) =>
        [.. duty.Claims.Where(made => made.Claim.Kind == ExemptionKind.UndocumentedProcedure)];

    private static ImmutableArray<TimelineFault> Faults(DutyFrame duty)
    {
        var claims = Claims(duty);
        var entries = claims.Select(made => made.Entry).ToImmutableArray();
        var faults = ImmutableArray.CreateBuilder<TimelineFault>();
        faults.AddRange(claims.Select(NotAllYes).OfType<TimelineFault>());
        var sources = duty.Sources;
        if (sources.Length > 1)
        {
            faults.Add(
                Wrong(
                    $"The machine has {TimelineWords.Named(sources.Select(source => source.Source))}: more than one source.",
                    entries
                )
            );
        }

        if (sources.Any(source => source.Source.Stored || source.Source.Reaccumulates))
        {
            var stored = sources
                .Where(source => source.Source.Stored || source.Source.Reaccumulates)
                .Select(source => source.Source);
            faults.Add(
                Wrong(
                    $"The energy of {TimelineWords.Named(stored)} stays stored or can build up again.",
                    entries
                )
            );
        }

        if (!sources.Any(source => source.IsDescribed))
        {
            faults.Add(
                new(
                    Verdict.Unproven,
                    FindingReason.NotRegistered,
                    $"Neither a procedure nor the register of machines says what energy {duty.Record.Machine.Id} has.",
                    entries,
                    "Enter the machine and its sources of energy in the register."
                )
            );
        }

        return faults.ToImmutable();
    }

    private static TimelineFault? NotAllYes(ClaimMade made)
    {
        if (made.Claim.Facts is not { } facts)
        {
            return Wrong($"{By(made)} claims it without an answer to the eight questions.", [made.Entry]);
        }

        var refused = Answers(facts).Where(answer => !answer.Yes).Select(answer => answer.Fact).ToList();
        return refused.Count == 0
            ? null
            : Wrong($"{By(made)} does not answer yes to this: {TimelineWords.List(refused)}.", [made.Entry]);
    }

    private static IEnumerable<(bool Yes, string Fact)> Answers(UndocumentedFacts facts) =>
        [
            (facts.NoStoredEnergy, "no energy stays stored or builds up again"),
            (facts.OneSource, "there is one source, easily told"),
            (facts.FullyDeenergised, "isolating it leaves the machine dead"),
            (facts.LockedForWork, "it is isolated and locked for the work"),
            (facts.OneLock, "one lock does it"),
            (facts.ExclusiveControl, "the lock is under the worker's sole control"),
            (facts.NoHazardToOthers, "nobody else is endangered"),
            (facts.NoPastAccident, "no accident came of doing so before"),
        ];

    private static TimelineFault Wrong(string text, ImmutableArray<OrderedEvent> entries) =>
        new(Verdict.NotMet, FindingReason.ProcedureNotFollowed, text, entries, Act);

    private static string By(ClaimMade made) => (made.Claim.DecidedBy ?? made.Entry.Event.Actor).Text;
}

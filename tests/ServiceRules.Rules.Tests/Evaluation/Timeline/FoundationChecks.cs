using ServiceRules.Domain.Timeline;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Tests.Evaluation.Timeline;

/// <summary>The timeline checks as the base rules ask them, by short names.</summary>
internal static class FoundationChecks
{
    public static Check.RequiredEvent Locked { get; } =
        new(
            [
                TimelineEventKind.LockApplied,
                TimelineEventKind.TagApplied,
                TimelineEventKind.PlugControlConfirmed,
            ],
            RequiredPer.PersonAndSource,
            RequiredWhen.BeforeWork,
            MachineNeed.IsolatedSource
        );

    public static IReadOnlyDictionary<string, Check> ByName { get; } =
        new Dictionary<string, Check>(StringComparer.Ordinal)
        {
            ["told-before"] = Before(TimelineEventKind.AffectedNotifiedBefore, MachineNeed.AffectedPeople),
            ["reviewed"] = Before(TimelineEventKind.EnergyReviewed),
            ["shut-down"] = Before(TimelineEventKind.MachineShutDown),
            ["isolated"] = new Check.RequiredEvent(
                [TimelineEventKind.IsolatorOperated, TimelineEventKind.PlugRemoved],
                RequiredPer.Source,
                RequiredWhen.BeforeWork,
                MachineNeed.IsolatedSource
            ),
            ["locked"] = Locked,
            ["released"] = new Check.RequiredEvent(
                [TimelineEventKind.StoredEnergyReleased],
                RequiredPer.Source,
                RequiredWhen.BeforeWork,
                MachineNeed.StoredSource
            ),
            ["verified"] = new Check.RequiredEvent(
                [TimelineEventKind.IsolationVerified],
                RequiredPer.Source,
                RequiredWhen.BeforeWork,
                null
            ),
            ["order"] = new Check.OrderOfEvents([
                TimelineEventKind.MachineShutDown,
                TimelineEventKind.IsolatorOperated,
                TimelineEventKind.LockApplied,
                TimelineEventKind.StoredEnergyReleased,
                TimelineEventKind.IsolationVerified,
            ]),
            ["protection"] = new Check.Protection(),
            ["area-inspected"] = After(TimelineEventKind.AreaInspected),
            ["people-clear"] = After(TimelineEventKind.PeopleClearChecked),
            ["told-after"] = After(TimelineEventKind.RemovalNotified),
            ["bursts"] = new Check.Credibility(CredibilityOf.Bursts),
            ["back-filled"] = new Check.Credibility(CredibilityOf.BackFilled),
            ["no-offset"] = new Check.Credibility(CredibilityOf.NoOffset),
            ["clock-backward"] = new Check.Credibility(CredibilityOf.ClockBackward),
        };

    public static Check.RequiredEvent Before(TimelineEventKind kind, MachineNeed? needs = null) =>
        new([kind], RequiredPer.Job, RequiredWhen.BeforeWork, needs);

    public static Check.RequiredEvent After(TimelineEventKind kind) =>
        new([kind], RequiredPer.Job, RequiredWhen.AfterWork, null);
}

using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;
using ServiceRules.Rules.Evaluation.Duties;
using ServiceRules.Rules.Evaluation.Timeline;
using ServiceRules.Rules.Model;

namespace ServiceRules.Reporting.Reports.SafeWork;

/// <summary>Who was protected from what, as the checks read it.</summary>
internal static class ProtectedPeople
{
    public static ImmutableArray<ProtectedPerson> Of(SafeWorkView view) =>
        [
            .. view
                .Reading.HandsIn.Concat(StepByHand.Of(view.Reading).Select(step => step.Person))
                .Distinct()
                .Select(person => Of(view, person)),
        ];

    private static ProtectedPerson Of(SafeWorkView view, Id<Participant> person)
    {
        var reading = view.Reading;
        var work = IntervalSet.Of(
            reading.Works.Where(one => one.Person == person).Select(one => one.Interval)
        );
        if (reading.Protection is not { } protection)
        {
            var uncovered = HandStep.Of(view, person, null);
            return new(
                person,
                work,
                null,
                [],
                IntervalSet.Never,
                LeftOpen(view, person, uncovered),
                LoggedHands.Of(view, person, null),
                Told(view, work, uncovered)
            );
        }
        ImmutableArray<ProtectedSource> sources =
        [
            .. view.Effective.Select(source => Of(reading, protection, person, source)),
        ];
        // The checks judge by the procedure; what it does not name has to be under control all the same.
        var others = sources
            .Where(source => !source.Effective.InProcedure)
            .Aggregate(
                IntervalSet.Always,
                (so, source) => so.And(source.Protected.Or(Before(source.Effective)))
            );
        var when = protection.ProtectedFor(person).And(others);
        var steps = HandStep.Of(view, person, when);
        return new(
            person,
            work,
            when,
            sources,
            ProtectionProof
                .NotCredible(view, person)
                .And(when)
                .Or(work.And(when).Without(Verified(view, sources))),
            LeftOpen(view, person, steps),
            LoggedHands.Of(view, person, when),
            Told(view, work, steps)
        );
    }

    // Guards put back by whoever did the work are no news; those of somebody known by nothing else are.
    private static ImmutableArray<HandStep> Told(
        SafeWorkView view,
        IntervalSet work,
        ImmutableArray<HandStep> all
    ) =>
        work.Intervals.IsEmpty
            ? all
            :
            [
                .. all.Where(step =>
                    step.IsBare && (view.Found.Exemption is null || step.Letter is not null)
                ),
            ];

    // Of whoever is known by steps alone each step tells by itself what it leaves open.
    private static MarkedFinding? LeftOpen(
        SafeWorkView view,
        Id<Participant> person,
        ImmutableArray<HandStep> steps
    ) => view.Reading.HandsIn.Contains(person) ? ProtectionProof.LeftOpen(view, person, steps) : null;

    /// <summary>The duty that every source is proven dead is not shown, or not proven.</summary>
    public static bool IsProofOpen(SafeWorkView view) =>
        view.Marked.Any(one =>
            one.Told.Rule.Check is Check.EnergyControl { Of: EnergyDuty.IsolationVerified }
        );

    // Where it is held open, what it does not accept proves nothing here either.
    private static IntervalSet Verified(SafeWorkView view, ImmutableArray<ProtectedSource> sources) =>
        IsProofOpen(view)
            ? sources.Aggregate(
                IntervalSet.Always,
                (so, source) => so.And(source.Reading.Verified.Or(Before(source.Effective)))
            )
            : IntervalSet.Always;

    private static IntervalSet Before(EffectiveSource source) =>
        source.AddedBy is null
            ? IntervalSet.Never
            : IntervalSet.Of([new TimelineInterval(TimelinePlace.Beginning, source.From)]);

    private static ProtectedSource Of(
        TimelineReading reading,
        ProtectionReading protection,
        Id<Participant> person,
        EffectiveSource effective
    )
    {
        var source = SourceReading.Of(reading, effective.Source);
        var control = source.HasIsolator ? protection.ControlOf(person, source.Source) : null;
        var safe = source.Proven.Without(reading.Running);
        return new(effective, source, control, control is null ? safe : safe.And(control));
    }
}

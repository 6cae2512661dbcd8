using System.Collections.Immutable;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Checks;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>
/// Stored energy that can build up again was checked, while anybody worked, at least as often as stated, by people whom the
/// register shows as authorised, and was not left above the limit that is stated for it.
/// </summary>
internal static class BuildUpRecheckedDuty
{
    public static CheckOutcome Judge(DutyFrame duty)
    {
        if (SourcesKnown.Lacking(duty) is { } lacking)
        {
            return lacking;
        }

        var sources = duty.Sources.Where(source => source.Source.Reaccumulates).ToImmutableArray();
        if (sources.IsEmpty)
        {
            return TimelineOutcome.NotApplicable("There is no stored energy here that can build up again.");
        }

        if (duty.Reading.Works.IsEmpty && duty.Reading.StopsWithoutStart.IsEmpty)
        {
            return TimelineOutcome.NotApplicable("The record shows no hands-on work.");
        }

        var stated = sources.Where(source => source.Source.RecheckMinutes is not null).ToImmutableArray();
        var read = sources.Where(source => IsRead(duty, source.Source)).ToImmutableArray();
        var faults = stated
            .SelectMany(source =>
                RechecksMissed.Faults(
                    duty.Reading,
                    source.Source,
                    duty.Words,
                    entry => IsByAuthorised(duty, entry)
                )
            )
            .Concat(
                sources.SelectMany(source =>
                    RecheckReadings.Faults(duty, source.Source, entry => IsByAuthorised(duty, entry))
                )
            )
            .Concat(stated.IsEmpty ? [] : duty.Reading.StopsWithoutStart.Select(stop => Untold(duty, stop)))
            .ToList();
        var outcome =
            faults.Count > 0 ? TimelineOutcome.OfFaults(faults)
            : stated.IsEmpty && read.IsEmpty
                ? TimelineOutcome.NotApplicable(
                    $"Nothing states how often {Named(sources)} is to be checked, so the record cannot be held against it."
                )
            : TimelineOutcome.Met(
                duty.Reading,
                Shown(duty, stated, read),
                [
                    .. stated
                        .Concat(read)
                        .SelectMany(source => RechecksMissed.Checks(duty.Reading, source.Source))
                        .Where(entry => IsByAuthorised(duty, entry))
                        .Distinct(),
                ]
            );
        return outcome with { Notices = [.. outcome.Notices, .. Notices(duty, sources)] };
    }

    private static bool IsByAuthorised(DutyFrame duty, OrderedEvent entry) =>
        Authorities.Of(duty, entry.Event.Actor) == Authority.Shown;

    private static bool IsRead(DutyFrame duty, EnergySource source) =>
        source.RecheckLimit is not null
        && RechecksMissed.Checks(duty.Reading, source).Any(check => check.Event.Pressure is not null);

    private static string Shown(
        DutyFrame duty,
        ImmutableArray<EffectiveSource> stated,
        ImmutableArray<EffectiveSource> read
    ) =>
        string.Join(
            " ",
            new[]
            {
                stated.IsEmpty
                    ? null
                    : $"The record shows {Named(stated)} checked as often as stated while anybody was at work.",
                read.IsEmpty
                    ? null
                    : $"The record shows {TimelineWords.List(read.Select(source => RecheckReadings.Left(duty.Reading, source.Source)))}.",
            }.OfType<string>()
        );

    private static TimelineFault Untold(DutyFrame duty, OrderedEvent stop) =>
        new(
            Verdict.Unproven,
            FindingReason.StepMissing,
            $"The record shows {stop.Event.Actor} at work until {duty.Words.Time(stop)}, and does not show from when: how long nothing was checked meanwhile cannot be told.",
            [stop],
            "Enter when hands-on work started, as a late entry."
        );

    private static string Named(IEnumerable<EffectiveSource> sources) =>
        TimelineWords.Named(sources.Select(source => source.Source));

    private static IEnumerable<string> Notices(DutyFrame duty, ImmutableArray<EffectiveSource> sources)
    {
        var silent = sources.Where(source => source.Source.RecheckMinutes is null).ToImmutableArray();
        if (!silent.IsEmpty)
        {
            yield return $"State in the procedure how often {Named(silent)}, which can build up again, is to be checked.";
        }

        foreach (
            var check in sources
                .SelectMany(source => RechecksMissed.Checks(duty.Reading, source.Source))
                .Where(entry => !IsByAuthorised(duty, entry))
                .Distinct()
        )
        {
            yield return $"The check {duty.Words.AtBy(check)}, {Authorities.Against(Authorities.Of(duty, check.Event.Actor))}, is not counted.";
        }

        foreach (
            var rise in sources
                .Where(source => source.Source.RecheckLimit is null)
                .SelectMany(source => Rising(duty, source.Source))
        )
        {
            yield return rise;
        }
    }

    // How much is too much is stated nowhere: a reading that has risen is told, and judged by a person.
    private static IEnumerable<string> Rising(DutyFrame duty, EnergySource source)
    {
        OrderedEvent? before = null;
        foreach (var entry in RechecksMissed.Checks(duty.Reading, source))
        {
            if (entry.Event.Pressure is not { } pressure)
            {
                continue;
            }

            if (
                before?.Event.Pressure is { } last
                && pressure > last
                && entry.Event.Kind == TimelineEventKind.StoredEnergyRechecked
            )
            {
                yield return $"The pressure of {TimelineWords.Named(source)} read {pressure} at {duty.Words.Time(entry)}, up from {last}: a person judges whether that was too much.";
            }

            before = entry;
        }
    }
}

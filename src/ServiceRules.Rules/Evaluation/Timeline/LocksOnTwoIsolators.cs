using ServiceRules.Domain;
using ServiceRules.Domain.Site;
using ServiceRules.Rules.Evaluation.Duties;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Timeline;

/// <summary>
/// One lock or tag entered on several isolators at one time: it hangs on one of them. Sources that are switched off at one
/// and the same isolator are held by one lock, and no doubt.
/// </summary>
internal static class LocksOnTwoIsolators
{
    /// <summary>One doubt for every later entry, and for every one that speaks of all sources where they have several isolators.</summary>
    public static IEnumerable<EntryDoubt> In(TimelineReading reading)
    {
        var isolators = EffectiveSources
            .Of(reading)
            .Where(source => source.IsDescribed && source.HasIsolator)
            .DistinctBy(source => source.Source.Id)
            .ToDictionary(source => source.Source.Id, source => source.Source);
        foreach (var device in reading.Devices)
        {
            var all = On(isolators, device).ToList();
            var other = Another(all) is { } told
                ? ((EnergySource Source, DeviceInterval Device)?)(told, device)
                : (
                    from earlier in reading.Devices
                    where
                        earlier.Device == device.Device
                        && earlier.Applied.Place() < device.Applied.Place()
                        && !earlier.Interval.Overlap(device.Interval).IsEmpty
                    from source in On(isolators, earlier)
                    where all.Exists(here => !IsSame(here, source))
                    select ((EnergySource, DeviceInterval)?)(source, earlier)
                ).FirstOrDefault();
            if (other is var (there, since))
            {
                yield return new(
                    CredibilityOf.LockInTwoPlaces,
                    device.Applied.Pointer(),
                    $"{device.Device} is entered as put on {TimelineWords.Named(all)} {reading.Words.AtBy(device.Applied)}"
                        + (
                            since == device
                                ? ", which are switched off at several isolators: one lock hangs on one"
                                : $" and hung on {TimelineWords.Named(there)} from {reading.Words.Time(since.Applied)}, at another isolator, with no entry that takes it off"
                        ),
                    Weakens: true
                );
            }
        }
    }

    private static IEnumerable<EnergySource> On(
        Dictionary<Id<EnergySource>, EnergySource> isolators,
        DeviceInterval device
    ) => isolators.Values.Where(source => device.IsOn(source.Id));

    private static EnergySource? Another(List<EnergySource> sources) =>
        sources.Find(source => !IsSame(source, sources[0]));

    private static bool IsSame(EnergySource one, EnergySource other) =>
        one.Id == other.Id
        || string.Equals(Plain(one.Isolator!), Plain(other.Isolator!), StringComparison.Ordinal);

    private static string Plain(string isolator) =>
        string.Concat(isolator.Where(char.IsAsciiLetterOrDigit).Select(char.ToLowerInvariant));
}

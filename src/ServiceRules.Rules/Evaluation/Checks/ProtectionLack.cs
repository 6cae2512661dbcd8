using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Rules.Evaluation.Duties;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>Which step of protection one person lacks at a place of the timeline.</summary>
/// <param name="What">After <c>does not show</c>.</param>
/// <param name="Act">What to do about it.</param>
/// <param name="Entries">Entries that bear on it.</param>
internal sealed record ProtectionLack(string What, string Act, ImmutableArray<OrderedEvent> Entries)
{
    private const string TurnOff =
        "Hands out; turn it off, see that it is off, enter what came of it, and verify before hands go in again.";

    private const string Release = "Release or restrain stored energy, then verify, before hands go in.";

    private const string Verify = "Verify that every source is dead before hands go in.";

    /// <summary>An entry is there, and says of how that it was not so: free words show no breach by themselves.</summary>
    public bool IsDenied { get; private init; }

    /// <summary>Whether nothing but such words is against it.</summary>
    public static bool AreDenied(IReadOnlyCollection<ProtectionLack> lacks) =>
        lacks.Count > 0 && lacks.All(lack => lack.IsDenied);

    /// <summary>Everything lacking, in the order in which it would have to be done.</summary>
    public static IEnumerable<ProtectionLack> At(
        TimelinePlace place,
        Id<Participant> person,
        TimelineReading reading,
        ProtectionReading protection,
        TimelineWords words
    ) => At(place, person, reading, protection, words, isWhole: false);

    /// <summary>The same, with what can only be done once what comes before it is done.</summary>
    public static IEnumerable<ProtectionLack> Whole(
        TimelinePlace place,
        Id<Participant> person,
        TimelineReading reading,
        ProtectionReading protection,
        TimelineWords words
    ) => At(place, person, reading, protection, words, isWhole: true);

    private static IEnumerable<ProtectionLack> At(
        TimelinePlace place,
        Id<Participant> person,
        TimelineReading reading,
        ProtectionReading protection,
        TimelineWords words,
        bool isWhole
    )
    {
        var sources = protection.SourcesAt(place).ToList();
        var on = sources.Where(source => !source.Isolated.Contains(place)).ToList();
        var free = sources
            .Where(source =>
                source.HasIsolator && !protection.ControlOf(person, source.Source).Contains(place)
            )
            .ToList();
        var stored = sources
            .Where(source =>
                !source.Released.Contains(place)
                && (!on.Contains(source) || (isWhole && source.Source.Stored))
            )
            .ToList();
        var unproven = sources
            .Where(source =>
                !source.Proven.Contains(place)
                && (isWhole || (!on.Contains(source) && !stored.Contains(source)))
                && !LacksOnlyTheLock(source, place, reading)
            )
            .ToList();
        return Grouped(
                on,
                source =>
                    source.IsolationDenied.Contains(place)
                        ? Denied(
                            source,
                            " isolated",
                            TurnOff,
                            SourceReading.Isolations,
                            place,
                            reading,
                            words
                        )
                        : NotIsolated(source, place, reading, words)
            )
            .Concat(Grouped(free, source => NotHeld(source, place, person, reading, protection)))
            .Concat(
                Grouped(
                    stored,
                    source =>
                        source.ReleaseDenied.Contains(place)
                            ? Denied(
                                source,
                                " released",
                                Release,
                                SourceReading.Releases,
                                place,
                                reading,
                                words
                            )
                            : NotReleased(source)
                )
            )
            .Concat(
                Grouped(
                    unproven,
                    source =>
                        source.ProofDenied.Contains(place)
                            ? Denied(
                                source,
                                " verified dead",
                                Verify,
                                SourceReading.Verifications,
                                place,
                                reading,
                                words
                            )
                            : NotProven(source, place, reading, words)
                )
            );
    }

    // An entry is there, and its own words are against it.
    private static Told Denied(
        SourceReading source,
        string after,
        string act,
        Func<TimelineReading, EnergySource, IEnumerable<OrderedEvent>> entries,
        TimelinePlace place,
        TimelineReading reading,
        TimelineWords words
    )
    {
        var said = entries(reading, source.Source)
            .Last(entry => entry.Place() <= place && SaidOtherwise.By(entry.Event));
        return new(
            string.Empty,
            $"{after} ({words.Time(said)}: {SaidOtherwise.Told(said)})",
            act,
            [said],
            IsDenied: true
        );
    }

    // Verified while it was off and released: told is the lock that it never had, and no proof that it did not lose.
    private static bool LacksOnlyTheLock(
        SourceReading source,
        TimelinePlace place,
        TimelineReading reading
    ) =>
        source.HasIsolator
        && source.Source.Lockable
        && !source.Held.Contains(place)
        && SourceReading
            .Verifications(reading, source.Source)
            .Any(entry =>
                entry.Place() <= place
                && !SaidOtherwise.By(entry.Event)
                && Lasted(source.Isolated, entry.Place(), place)
                && Lasted(source.Released, entry.Place(), place)
            );

    private static bool Lasted(IntervalSet state, TimelinePlace from, TimelinePlace until) =>
        state.Intervals.Any(one => one.Contains(from) && one.Contains(until));

    private static IEnumerable<ProtectionLack> Grouped(
        List<SourceReading> sources,
        Func<SourceReading, Told> told
    ) =>
        from source in sources
        let one = told(source)
        group (source, one.Entries) by (one.Before, one.After, one.Act, one.IsDenied) into alike
        select new ProtectionLack(
            alike.Key.Before
                + TimelineWords.Named(alike.Select(item => item.source.Source))
                + alike.Key.After,
            alike.Key.Act,
            [.. alike.SelectMany(item => item.Entries)]
        )
        {
            IsDenied = alike.Key.IsDenied,
        };

    private static Told NotIsolated(
        SourceReading source,
        TimelinePlace place,
        TimelineReading reading,
        TimelineWords words
    )
    {
        const string act = "Stop work; isolate, lock and verify before hands go in again.";
        var lost = reading.Events.LastOrDefault(entry =>
            entry.Place() <= place && source.Isolated.Ends.Contains(entry.Place())
        );
        var rehung = lost?.Event.Kind is TimelineEventKind.LockRemoved or TimelineEventKind.TagRemoved
            ? reading.Devices.FirstOrDefault(device =>
                device.IsOn(source.Source.Id)
                && device.Applied.Event.Position is null
                && device.Applied.Place() > lost.Place()
                && device.Interval.Contains(place)
            )
            : null;
        return rehung is not null
                ? new(
                    string.Empty,
                    $" isolated again after {EventWords.Done(lost!.Event)} at {words.Time(lost)} (the entry that hangs {rehung.Device} again does not say that the isolator was off)",
                    "Look whether the isolator is still off, enter its position with the lock, and verify before hands go in again.",
                    [lost, rehung.Applied]
                )
            : lost is null ? new(string.Empty, " isolated", act, [])
            : new(
                string.Empty,
                $" isolated again after {EventWords.Done(lost.Event)} at {words.Time(lost)}",
                act,
                [lost]
            );
    }

    private static Told NotHeld(
        SourceReading source,
        TimelinePlace place,
        Id<Participant> person,
        TimelineReading reading,
        ProtectionReading protection
    )
    {
        var on = reading.Devices.LastOrDefault(device =>
            device.Person == person
            && device.Interval.Contains(place)
            && (device.IsOn(source.Source.Id) || device.IsOnGroupBox)
        );
        var why = on switch
        {
            null => string.Empty,
            { HoldsOff: false } => $" (lock {on.Device} was put on with the isolator on)",
            { IsTag: true } => $" (tag {on.Device} does not stand for a lock here)",
            _ when protection.IsIssuedToAnother(on) => $" (lock {on.Device} is issued to somebody else)",
            { IsOnGroupBox: true } =>
                $" (lock {on.Device} is on the group box, but no job lock holds the isolator)",
            _ => $" (lock {on.Device} is a job lock, not {person}'s own)",
        };
        return new(
            $"{person}'s own {(source.Source.Lockable ? "lock" : "lock or control")} on ",
            why,
            source.Source.Lockable
                ? $"Before hands go in, an own lock of {person} goes on every source."
                : $"Before hands go in, {person} keeps the plug of every source that takes no lock, or hangs an own tag at that point.",
            on is null ? [] : [on.Applied]
        );
    }

    private static Told NotReleased(SourceReading source) =>
        new(
            "the stored energy of ",
            source.HasIsolator ? " released after it was isolated" : " released or restrained",
            Release,
            []
        );

    private static Told NotProven(
        SourceReading source,
        TimelinePlace place,
        TimelineReading reading,
        TimelineWords words
    )
    {
        var verified = SourceReading
            .Verifications(reading, source.Source)
            .LastOrDefault(entry => entry.Place() <= place);
        if (verified is null)
        {
            return new(string.Empty, " verified dead", Verify, []);
        }

        if (SourceReading.IsProvenAgainByUnauthorised(reading, verified))
        {
            return new(
                string.Empty,
                $" verified dead again by somebody authorised ({words.Time(verified)}: by {verified.Event.Actor}, {Authorities.Against(Authority.Denied)})",
                Verify,
                [verified]
            );
        }

        var after = SourceReading
            .Releases(reading, source.Source)
            .LastOrDefault(entry => entry.Place() > verified.Place() && entry.Place() <= place);
        return after is null
            ? new(
                string.Empty,
                $" verified dead after it was made safe (last verified at {words.Time(verified)})",
                Verify,
                [verified]
            )
            : new(
                string.Empty,
                $" verified dead after its stored energy was released at {words.Time(after)} (last verified at {words.Time(verified)})",
                Verify,
                [verified, after]
            );
    }

    /// <param name="Before">What stands before the sources.</param>
    /// <param name="After">What stands after them.</param>
    /// <param name="Act">What to do about it.</param>
    /// <param name="Entries">Entries that bear on it.</param>
    /// <param name="IsDenied">An entry is there, and its own words are against it.</param>
    private readonly record struct Told(
        string Before,
        string After,
        string Act,
        ImmutableArray<OrderedEvent> Entries,
        bool IsDenied = false
    );
}

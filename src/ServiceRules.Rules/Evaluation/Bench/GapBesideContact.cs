using System.Collections.Immutable;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;

namespace ServiceRules.Rules.Evaluation.Bench;

/// <summary>
/// Contact noted where lengths or feelers show a gap, with nothing turned between: both cannot be. Neither is believed more than the
/// other, whichever was noted later, whichever way the unit is set: the place is contested between the gap and none. Contact over the
/// full width contradicts a gap anywhere; contact at one place a gap there. Partial contact over the width leaves room for gaps.
/// </summary>
internal static class GapBesideContact
{
    // A gap is never less than nothing: where reel and bedknife touch there is none.
    private static readonly LengthInterval Touching = LengthInterval.Between(Length.Zero, Length.Zero);

    /// <summary>The places of one quantity, those where a gap and contact contradict one another told so.</summary>
    /// <param name="places">What is known at each place.</param>
    /// <param name="readings">All that was read of the quantity.</param>
    public static ImmutableArray<PlaceKnown> Told(
        ImmutableArray<PlaceKnown> places,
        IReadOnlyList<LoggedReading> readings
    )
    {
        var across = places.FirstOrDefault(place =>
            place is { Station: null, Blade: null, ContactContradiction: null } && IsOverTheWidth(place)
        );
        var told = places.Select(place => OfPlace(place, across, readings)).ToImmutableArray();
        // What was noted over the width is in doubt as soon as one place contradicts it.
        var first = told.FirstOrDefault(place => place is { GapContradiction: not null, Station: not null });
        return across is null || first is null
            ? told
            :
            [
                .. told.Select(place =>
                    ReferenceEquals(place, across)
                        ? place with
                        {
                            State = KnownState.Conflicting,
                            GapContradiction = first.GapContradiction,
                        }
                        : place
                ),
            ];
    }

    private static PlaceKnown OfPlace(
        PlaceKnown place,
        PlaceKnown? across,
        IReadOnlyList<LoggedReading> readings
    )
    {
        var noted =
            IsTouching(place) ? place
            : place.Blade is null ? across
            : null;
        if (
            noted is null
            || place.State is KnownState.Conflicting or KnownState.Stale
            || place.Knowledge is not { } known
            || !IsOpen(known)
            || Last(readings, place, ShowsAGap) is not { } gap
            || Last(readings, noted, reading => reading.Observed is Observation.Contact) is not { } contact
        )
        {
            return place;
        }

        var said = (
            Gap: $"a gap of {Wording.Of(known, place.System)}",
            Contact: Wording.Of(noted.ContactBelieved[0])
                + (noted.Station is null ? " over the width" : string.Empty)
        );
        return place with
        {
            State = KnownState.Conflicting,
            Knowledge = null,
            Contested = [known, Touching],
            AsRead = null,
            Shared = null,
            GapContradiction =
                gap.Index < contact.Index
                    ? new(said.Gap, gap.At, said.Contact, contact.At)
                    : new(said.Contact, contact.At, said.Gap, gap.At),
            Evidence = Evidence(place, contact),
        };
    }

    private static ImmutableArray<string> Evidence(PlaceKnown place, LoggedReading contact) =>
        place.Evidence.Contains(contact.Pointer) ? place.Evidence : place.Evidence.Add(contact.Pointer);

    private static bool IsOverTheWidth(PlaceKnown place) =>
        !place.ContactBelieved.IsEmpty
        && place.ContactBelieved.All(contact => contact is ContactState.Light or ContactState.Heavy);

    private static bool IsTouching(PlaceKnown place) =>
        place.ContactContradiction is null
        && (
            place.Station is null
                ? IsOverTheWidth(place)
                : !place.ContactBelieved.IsEmpty
                    && place.ContactBelieved.All(contact => contact is not ContactState.None)
        );

    /// <summary>What was taken last at a place with nothing done since: contact stands so alone, and nothing lies between both.</summary>
    private static LoggedReading? Last(
        IReadOnlyList<LoggedReading> readings,
        PlaceKnown place,
        Func<LoggedReading, bool> isMeant
    ) =>
        readings.LastOrDefault(reading =>
            reading.Since.IsNone
            && reading.Place == new PlaceKey(place.Station, place.Blade)
            && isMeant(reading)
        );

    private static bool ShowsAGap(LoggedReading reading) =>
        reading.Observed is Observation.Measured or Observation.FeelerTest { Passes: true };

    private static bool IsOpen(Knowledge knowledge) =>
        knowledge switch
        {
            LengthInterval { Lower: { } lower } => lower.Value > Length.Zero,
            MeasuredValue measured => measured.Value - measured.Expanded.Value > Length.Zero,
            _ => false,
        };
}

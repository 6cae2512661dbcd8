using System.Collections.Immutable;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Bench;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>At every gauging station one feeler passes and the next does not, nothing turned after, nothing touching.</summary>
internal static class AirGapProcedure
{
    public static CheckOutcome Evaluate(UnitFrame unit, MeasuredQuantity quantity, SchoolProcedure procedure)
    {
        if (procedure.Passes is not { } passes || procedure.Stops is not { } stops)
        {
            return Told.NotApplicable(
                $"{Wording.Sentence(Wording.Of(quantity))}: the limit sheet names no feelers for a gap"
            );
        }

        if (ContactFault.InAirGap(unit, quantity) is { } contact)
        {
            return contact;
        }

        var left = unit.Of(quantity)?.Left ?? [];
        var said = UnitPlaces.Of(unit, quantity);
        var stations = UnitPlaces.GaugingStations(unit, quantity);
        var results = stations.IsEmpty
            ? [Station([.. left.Where(place => place.Station is null)], "across", unit, passes, stops)]
            : stations
                .Select(station =>
                    Station(
                        [.. left.Where(place => place.Station == station)],
                        said.Said(station, null),
                        unit,
                        passes,
                        stops
                    )
                )
                .ToList();
        return ContactFault.Doubting(Together(unit, results, quantity, passes, stops), unit, quantity);
    }

    private static CheckOutcome Together(
        UnitFrame unit,
        List<StationResult> results,
        MeasuredQuantity quantity,
        DualPrint passes,
        DualPrint stops
    )
    {
        var worst = results.MinBy(result => Rank(result.Verdict))!;
        var evidence = Told.Sorted(results.SelectMany(result => result.Evidence));
        if (worst.Verdict is Verdict.Met)
        {
            return Told.Met(
                $"{Wording.Sentence(Wording.Of(quantity))}: the {passes.Governing} feeler passes and the {stops.Governing} feeler does not, at {Wording.Listed(results.ConvertAll(result => result.Place))}",
                evidence
            );
        }

        var alike = results.FindAll(result =>
            result.Verdict == worst.Verdict && result.Reason == worst.Reason && result.Why == worst.Why
        );
        var places = alike.ConvertAll(result => result.Place);
        var statement = $"{Wording.Sentence(Wording.Of(quantity))}: {worst.At(places)}";
        return worst.Verdict is Verdict.NotMet
            ? Told.NotMet(
                worst.Reason,
                statement,
                evidence,
                ContestedRemedy.ReadAgain(unit, quantity)
                    ?? ToTurn(unit, quantity, passes, stops)
                    ?? BladesApart.Told(unit, quantity, [.. results.SelectMany(result => result.Apart)])
                    ?? (Remedy?)SeemApart(unit, quantity, passes, stops)
                    ?? new Remedy.Act(TurnAndTry(results, passes, stops))
            )
            : Told.Unproven(
                worst.Reason,
                statement,
                evidence,
                new Remedy.ReadAgain(quantity, [.. places], worst.At([]))
            );
    }

    /// <summary>
    /// How to turn and try, where no count is known: only the sides that are out, each in the direction that is proven, and what opens
    /// before what closes. A side that is as taught is left, since every step taken there would be one out of it.
    /// </summary>
    private static string TurnAndTry(List<StationResult> results, DualPrint passes, DualPrint stops)
    {
        var until =
            $"until the {passes.Governing} feeler just passes there and the {stops.Governing} feeler does not";
        if (results is not [var left, var right])
        {
            return $"{Way(results[0])} one step at a time, both sides alternately, {until}";
        }

        return (left.IsTooWide, right.IsTooWide) switch
        {
            ({ } one, { } other) when one == other =>
                $"{Way(left)} one step at a time, both sides alternately, each {until}",
            (false, true) => BothWays("left", "right", until),
            (true, false) => BothWays("right", "left", until),
            (null, _) => OneSide(right, "right", left, "left", until),
            _ => OneSide(left, "left", right, "right", until),
        };
    }

    private static string BothWays(string tight, string wide, string until) =>
        $"first open the {tight} side, which is too tight, one step at a time, {until}; then close the {wide} side, which is too wide, in the same way; then try both ends again";

    private static string OneSide(
        StationResult outside,
        string side,
        StationResult beside,
        string other,
        string until
    )
    {
        var leave =
            beside.Verdict is Verdict.Met
                ? $"leave the {other}, which is as taught, as it is"
                : $"leave the {other}, of which nothing is proven, as it is";
        return $"{Way(outside)} only the {side} side, one step at a time, {until}; {leave}; then try both ends again";
    }

    private static string Way(StationResult result) => result.IsTooWide is false ? "open" : "close";

    /// <summary>
    /// Whole steps where what is known tells how many, what must be repaired before any count, or the blades that no adjuster mends;
    /// null: turn and try.
    /// </summary>
    private static Remedy? ToTurn(
        UnitFrame unit,
        MeasuredQuantity quantity,
        DualPrint passes,
        DualPrint stops
    ) =>
        AdjustedQuantity.FinelySetBy(quantity) is { } kind && PrintedZone.Of(passes, stops, null) is { } zone
            ? StepRepair.For(unit, kind) ?? Counted(quantity, kind, unit, UnitPlaces.Of(unit, quantity), zone)
            : null;

    private static Remedy.ReadAgain? SeemApart(
        UnitFrame unit,
        MeasuredQuantity quantity,
        DualPrint passes,
        DualPrint stops
    ) =>
        PrintedZone.Of(passes, stops, null) is { } zone
            ? BladesApart.NotTold(quantity, UnitPlaces.Of(unit, quantity), zone)
            : null;

    private static Remedy? Counted(
        MeasuredQuantity quantity,
        AdjusterKind kind,
        UnitFrame unit,
        UnitPlaces places,
        PrintedZone zone
    ) =>
        StepRemedy.For(quantity, kind, unit, places, zone) is Remedy.Turn { Sequence.IsEmpty: false } turn
            ? turn
            : BladesApart.NotRead(quantity, places) ?? (Remedy?)BladesApart.Of(quantity, unit, places, zone);

    private static int Rank(Verdict verdict) =>
        verdict switch
        {
            Verdict.NotMet => 0,
            Verdict.Unproven => 1,
            _ => 2,
        };

    private static StationResult Station(
        ImmutableArray<PlaceKnown> places,
        string name,
        UnitFrame unit,
        DualPrint passes,
        DualPrint stops
    )
    {
        var tried = places
            .Where(place =>
                !place.Feelers.IsEmpty
                && (place.State is not KnownState.Conflicting || place.Knowledge is not null)
            )
            .Select(place => (place.Blade, Place: place, Result: Judged(place, name, passes, stops)))
            .ToList();
        var evidence = Told.Sorted(places.SelectMany(place => place.Evidence));
        var broken = tried.Find(each => each.Result.Verdict == Verdict.NotMet).Result;
        if (broken is not null)
        {
            return broken with
            {
                // A blade that is out where another is as taught: no adjuster mends the one without the other.
                Apart = tried.Exists(each => each.Result.Verdict is Verdict.Met)
                    ?
                    [
                        .. tried
                            .Where(each => each.Blade is not null && each.Result.IsTooWide is not null)
                            .Select(each => (each.Place, each.Result.IsTooWide!.Value)),
                    ]
                    : [],
            };
        }

        if (places.Any(place => place.State == KnownState.Conflicting))
        {
            return Open(
                FindingReason.Conflicting,
                places.Any(place => place.IsUnturned)
                    ? "readings @ contradict one another, and nothing was turned between"
                    : "readings @ contradict one another: repeat them",
                name,
                evidence
            );
        }

        var undecided = tried.Find(each => each.Result.Verdict == Verdict.Unproven).Result;
        if (undecided is not null)
        {
            return undecided;
        }

        if (tried.Count == 0)
        {
            return places.All(place => place.State is KnownState.Fresh)
                ? Open(FindingReason.NotMeasured, "no feeler was tried @", name, evidence)
                : Open(
                    FindingReason.Stale,
                    "no feeler was tried @ since something was turned: check again",
                    name,
                    evidence
                );
        }

        var covered =
            tried.Exists(each => each.Blade is null)
            || Enumerable.Range(1, unit.Sheet.Blades).All(blade => tried.Exists(each => each.Blade == blade));
        return covered
            ? tried[0].Result with
            {
                Evidence = evidence,
            }
            : Open(FindingReason.TooFewStations, "not every blade was tried @", name, evidence);
    }

    /// <summary>
    /// The feelers tried at one place. A feeler that passes lets every thinner one pass, and one that does not pass stops
    /// every thicker one, so a breach may show without the taught feelers; met never does.
    /// </summary>
    private static StationResult Judged(PlaceKnown place, string name, DualPrint passes, DualPrint stops)
    {
        var thin = passes.Governing.Value;
        var thick = stops.Governing.Value;
        var feelers = Standing(place.Feelers);
        var tooTight = feelers.Find(feeler =>
            !feeler.Passes && (Is(feeler, passes) || feeler.Thickness < thin)
        );
        if (tooTight is not null)
        {
            return Breach(tooTight, "does not pass", name, place) with { IsTooWide = false };
        }

        var tooWide = feelers.Find(feeler =>
            feeler.Passes && (Is(feeler, stops) || feeler.Thickness > thick)
        );
        if (tooWide is not null)
        {
            return Breach(tooWide, "passes", name, place) with { IsTooWide = true };
        }

        var passed = feelers.FindIndex(feeler => feeler.Passes && Is(feeler, passes));
        var stopped = feelers.FindLastIndex(feeler => !feeler.Passes && Is(feeler, stops));
        if (passed < 0 || stopped < 0)
        {
            var missing = passed < 0 ? passes : stops;
            return Open(
                FindingReason.ProcedureNotFollowed,
                $"no feeler of {missing.Governing} was tried @",
                name,
                place.Evidence
            );
        }

        if (stopped < passed)
        {
            return Open(
                FindingReason.ProcedureNotFollowed,
                "the thicker feeler was tried first @",
                name,
                place.Evidence
            );
        }

        if (place.Doubt is FindingReason.GaugeCannotRead)
        {
            return Open(
                FindingReason.GaugeCannotRead,
                "what was tried @ is no feeler that can tell this",
                name,
                place.Evidence
            );
        }

        return place.Doubt is FindingReason.GaugeUnfit
            ? Open(
                FindingReason.GaugeUnfit,
                "the feelers used @ failed their inspection or are out of date",
                name,
                place.Evidence
            )
            : new(Verdict.Met, FindingReason.None, string.Empty, name, place.Evidence);
    }

    private static bool Is(FeelerTried feeler, DualPrint print) =>
        feeler.Thickness == print.Governing.Value || feeler.Thickness == print.Alternate?.Value;

    /// <summary>Tries whose result was the last of their feeler: a slip that was repeated and mended is left out.</summary>
    private static List<FeelerTried> Standing(ImmutableArray<FeelerTried> feelers) =>
        [
            .. feelers.Where(feeler =>
                feelers.Last(other => other.Thickness == feeler.Thickness).Passes == feeler.Passes
            ),
        ];

    private static StationResult Breach(FeelerTried feeler, string does, string name, PlaceKnown place) =>
        new(
            Verdict.NotMet,
            FindingReason.OutOfLimit,
            feeler.Stacked.IsEmpty
                ? $"the {feeler.Named(place.System)} feeler {does} @"
                : $"{feeler.Named(place.System)} {does} @",
            name,
            place.Evidence
        );

    private static StationResult Open(
        FindingReason reason,
        string why,
        string place,
        ImmutableArray<string> evidence
    ) => new(Verdict.Unproven, reason, why, place, evidence);

    private sealed record StationResult(
        Verdict Verdict,
        FindingReason Reason,
        string Why,
        string Place,
        ImmutableArray<string> Evidence
    )
    {
        /// <summary>Which way it is proven out; null where it is not.</summary>
        public bool? IsTooWide { get; init; }

        /// <summary>Blades that are proven out, and which way, where another is as taught.</summary>
        public ImmutableArray<(PlaceKnown Place, bool IsWider)> Apart { get; init; } = [];

        /// <summary>Why, the places put where the sentence has its mark.</summary>
        public string At(List<string> places) =>
            places.Count == 0 || places is ["across"]
                ? Why.Replace(" @", string.Empty, StringComparison.Ordinal)
                : Why.Replace("@", $"at {Wording.Listed(places)}", StringComparison.Ordinal);
    }
}

using System.Collections.Immutable;
using System.Globalization;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>
/// Makes one outcome of the judgements at every place: a breach anywhere is a breach; else a place that is needed and
/// cannot be judged leaves it unproven; else the weakest place speaks.
/// </summary>
internal static class JudgedPlaces
{
    private const string PartedAgain =
        "read in both units, and the two printed limits part here: read every place again in one of them";

    public static CheckOutcome Outcome(
        string subject,
        IReadOnlyList<PlaceJudgement> judged,
        ImmutableArray<Obstacle> obstacles,
        IEnumerable<string> evidence
    )
    {
        var ordered = judged
            .OrderBy(place => Rank(place.Compared.Verdict))
            .ThenBy(place => place.Compared.Margin ?? Length.Zero)
            .ToList();
        var worst = ordered.FirstOrDefault();
        var (verdict, reason, statement) =
            worst is { Compared.Verdict: Verdict.NotMet }
                ? (Verdict.NotMet, worst.Compared.Reason, Out(ordered))
            : !obstacles.IsEmpty ? (Verdict.Unproven, obstacles[0].Reason, NotKnown(subject, obstacles))
            : worst is null ? (Verdict.Unproven, FindingReason.NotMeasured, "not measured")
            : worst.Compared.Verdict == Verdict.Unproven
                ? (Verdict.Unproven, worst.Compared.Reason, Undecided(worst))
            : (Verdict.Met, FindingReason.None, In(ordered));
        return new()
        {
            Verdict = verdict,
            Reason = reason,
            Statement = $"{Wording.Sentence(subject)}: {statement}",
            Comparisons = [.. ordered.Select(place => place.Compared)],
            Evidence = Told.Sorted(evidence.Concat(obstacles.SelectMany(obstacle => obstacle.Evidence))),
            Notices = [.. PrintNotices(ordered)],
            WhyAgain =
                verdict is not Verdict.Unproven || !obstacles.IsEmpty ? null
                : worst is { PrintsPart: true } ? PartedAgain
                : worst?.Grown?.Again,
        };
    }

    private static IEnumerable<string> PrintNotices(IEnumerable<PlaceJudgement> places) =>
        Alike.Once(
            places.Where(place => place.Notice is not null).Select(place => (place.Where, place.Notice!))
        );

    /// <summary>What stands in the way, in words.</summary>
    public static string NotKnown(string subject, ImmutableArray<Obstacle> obstacles)
    {
        var first = obstacles[0];
        var alike = obstacles.Where(each =>
            each.Reason == first.Reason
            && each.Subject == first.Subject
            && each.OnSomeBlades == first.OnSomeBlades
            && each.Lacking == first.Lacking
            && each.IsUnturned == first.IsUnturned
        );
        var at =
            first.Place == "across"
                ? string.Empty
                : $" at {Wording.Listed([.. alike.Select(each => each.Place)])}";
        var stations = first.Lacking is { } lacking ? $" at {lacking} of{at[" at".Length..]}" : at;
        var of = first.Subject.Length == 0 ? string.Empty : first.Subject + " ";
        return first.Reason switch
        {
            FindingReason.Conflicting when first.IsUnturned =>
                $"{of}readings{at} contradict one another, and nothing was turned between",
            FindingReason.Conflicting when !first.Once.IsEmpty =>
                $"{of}readings{at} still contradict one another: repeat {Wording.Listed(first.Once)} too",
            FindingReason.Conflicting => $"{of}readings{at} contradict one another: repeat them",
            FindingReason.Stale =>
                $"something that moves it was turned after the {of}reading{at}: check again",
            FindingReason.TooFewStations when first.OnSomeBlades =>
                $"{of}read on some blades only{stations}: read it on every blade",
            FindingReason.TooFewStations => $"{of}not read{stations}",
            _ => $"{of}not measured{at}",
        };
    }

    /// <summary>Out before not proven before in.</summary>
    public static int Rank(Verdict verdict) =>
        verdict switch
        {
            Verdict.NotMet => 0,
            Verdict.Unproven => 1,
            _ => 2,
        };

    private static string Out(List<PlaceJudgement> ordered)
    {
        var isOut = ordered.FindAll(place => place.Compared.Verdict == Verdict.NotMet);
        // What was read comes before an end that only the line tells, however much further out that is.
        var worst = isOut.Find(place => !place.Compared.IsAtEnd) ?? isOut[0];
        var others = isOut.Where(place => place != worst).Select(place => place.Said).ToList();
        var also = others.Count == 0 ? string.Empty : $"; also out: {string.Join("; ", others)}";
        return $"{worst.Said}, {Limit(worst.Compared, worst.System)}: {By(worst)}{Risk(worst)}{also}";
    }

    /// <summary>How far out; a length that lies on a limit which is itself out is out by nothing.</summary>
    private static string By(PlaceJudgement worst)
    {
        if (worst.IsBeyondBound || worst.Compared.Margin is not { } margin)
        {
            return "out";
        }

        // An interval that lies outside tells the least that it is out by.
        var isLeast = worst.Compared.Value is null;
        return margin == Length.Zero
            ? AtLimit(worst, isLeast)
            : $"out by {(isLeast ? "at least " : "")}{Wording.Beside(margin.Abs, worst.Compared.Uncertainty, worst.System)}";
    }

    private static string AtLimit(PlaceJudgement worst, bool isLeast) =>
        !isLeast ? "at the limit, which itself is out"
        : worst.MayBeAtLimit ? "at the limit or beyond it, and the limit itself is out"
        : "out";

    private static string In(List<PlaceJudgement> ordered)
    {
        var tightest = ordered[0];
        var figures =
            $"{tightest.Said}, {ZoneWords.Of(tightest.Compared.LowerLimit, tightest.Compared.UpperLimit, tightest.System)}";
        return ordered.Count == 1
            ? $"{figures}: in{Risk(tightest)}"
            : $"in {Places(ordered)}; tightest {figures}{Risk(tightest)}";
    }

    // More places than these are counted, not named.
    private const int MostNamed = 4;

    /// <summary>Where: what was read by name, and the ends that a line tells as such. Nobody is told in where nobody read.</summary>
    private static string Places(List<PlaceJudgement> judged)
    {
        var ends = judged
            .Where(place => place.Compared.IsAtEnd)
            .Select(place => place.Where)
            .Distinct()
            .ToList();
        var read = judged
            .Where(place => !place.Compared.IsAtEnd)
            .Select(place => place.Where)
            .Distinct()
            .ToList();
        var byLine = ends.Count switch
        {
            0 => string.Empty,
            2 when ends.TrueForAll(end => end is "left end" or "right end") => "at both ends by the line",
            <= MostNamed => $"at the {Wording.Listed(ends)} by the line",
            _ => "at the ends by the lines",
        };
        var named =
            read.Count == 0 ? string.Empty
            : read.Count <= MostNamed ? $"at {Wording.Listed(read)}"
            : string.Create(CultureInfo.InvariantCulture, $"at all {read.Count} places read");
        return string.Join(", and ", new[] { named, byLine }.Where(each => each.Length > 0));
    }

    private static string Undecided(PlaceJudgement place)
    {
        var zone = ZoneWords.Of(place.Compared.LowerLimit, place.Compared.UpperLimit, place.System);
        var figures = $"{place.Said}, {zone}";
        return place.Compared.Reason switch
        {
            _ when place.PrintsPart =>
                $"{figures}: out by one of the two printed limits only, and read in both units",
            _ when place.Grown is { } grown => $"{figures}: {grown.Told}",
            FindingReason.InsideGuard =>
                $"{figures}: closer to the limit than this gauge can tell{Guard(place)}{Chance(place)}",
            FindingReason.GaugeCannotProve =>
                $"{figures}: this gauge cannot prove this limit, whatever it reads{Needed(place)}",
            FindingReason.IntervalCrossesLimit when place.LeavesLimitItself =>
                $"{figures}: it may be at the limit, which itself is out",
            FindingReason.IntervalCrossesLimit =>
                $"{figures}: what the feelers tell leaves room on both sides of the limit",
            FindingReason.ProbabilityBetween =>
                $"{figures}: neither likely enough in nor likely enough out{Chance(place)}",
            FindingReason.GaugeUnfit =>
                $"{figures}: read with a gauge that was out of date or failed its check",
            FindingReason.GaugeCannotRead => $"{figures}: read with a gauge that cannot read this",
            FindingReason.UncertaintyUnknown when place.Compared.Value is null =>
                $"{figures}: no tolerance of these feelers is stated, so that they prove nothing of a limit",
            FindingReason.UncertaintyUnknown =>
                $"{figures}: nothing is known of how far this gauge may be off, so that it proves nothing",
            _ => $"{figures}: not proven",
        };
    }

    /// <summary>The risk of the verdict, where the rule decides by chances or by the reading alone.</summary>
    private static string Risk(PlaceJudgement place) => place.Risk is { } risk ? $" ({risk})" : string.Empty;

    /// <summary>How likely it is in, for whoever has to decide what the gauge leaves open.</summary>
    private static string Chance(PlaceJudgement place) =>
        ChanceWords.Risk(place.Compared) is { } chance ? $" ({chance})" : string.Empty;

    /// <summary>How good a gauge would have to be.</summary>
    private static string Needed(PlaceJudgement place) =>
        place is { CoarsestGauge: { } coarsest, Compared.Uncertainty: { } own } && coarsest > Length.Zero
            ? $"; it may be off by {UncertaintyPrint.Of(own, place.System)}, and the limit asks for {UncertaintyPrint.AtMost(coarsest, place.System)} or better"
            : string.Empty;

    /// <summary>The guard, where it is not the uncertainty that stands beside the value.</summary>
    private static string Guard(PlaceJudgement place)
    {
        var compared = place.Compared;
        var guard = compared.AcceptLower - compared.LowerLimit ?? compared.UpperLimit - compared.AcceptUpper;
        return guard is { } kept && kept != compared.Uncertainty
            ? $", by the rule's guard of {UncertaintyPrint.Of(kept, place.System)}"
            : string.Empty;
    }

    /// <summary>The limit that is broken.</summary>
    private static string Limit(Comparison compared, UnitSystem system)
    {
        var isAbove =
            compared.UpperLimit is { } upper
            && (compared.Value ?? compared.KnownLower) is { } least
            && least >= upper;
        var isEitherWay = compared.LowerLimit is { } lower && compared.UpperLimit == -lower;
        return isAbove || isEitherWay
            ? ZoneWords.Of(null, compared.UpperLimit, system)
            : ZoneWords.Of(compared.LowerLimit, null, system);
    }
}

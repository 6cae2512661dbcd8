using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>
/// A look at contact asks for no length, and never outvotes one. What the record shows of the gap is held against the limits of
/// the sheet all the same: out stays out, and what lies outside without being proven to is unproven.
/// </summary>
internal static class LookAgainstLengths
{
    /// <summary>What lengths and feelers say against a gap that a look finds in order; null where they say nothing against it.</summary>
    public static CheckOutcome? OfAGap(MeasuredQuantity quantity, Rule rule, JobFrame frame, UnitFrame unit)
    {
        var held = LimitOnQuantityCheck.Evaluate(
            new(quantity, LimitSource.Sheet, CheckedPlaces.StationsAndEnds),
            rule,
            frame,
            unit
        );
        if (
            held.Verdict is Verdict.NotMet
            || held is { Verdict: Verdict.Unproven, Reason: FindingReason.Conflicting }
        )
        {
            return held;
        }

        var outside = held.Comparisons.Where(IsOutside).ToList();
        if (held.Verdict is not Verdict.Unproven || outside.Count == 0)
        {
            return null;
        }

        var places = UnitPlaces.Of(unit, quantity);
        var told = outside.ConvertAll(compared => Said(compared, places));
        return held with
        {
            Reason = outside[0].Reason,
            Statement =
                $"{Wording.Sentence(Wording.Of(quantity))}: by what was read outside its limits, which is not proven: {string.Join("; ", told)}",
            Remedy = new Remedy.ReadAgain(
                quantity,
                [
                    .. outside
                        .Where(compared => !compared.IsAtEnd)
                        .Select(compared => compared.Place)
                        .DefaultIfEmpty(outside[0].Place),
                ],
                "what was read lies outside the limits, and a look does not outvote it"
            ),
        };
    }

    /// <summary>A gap that was read where reel and bedknife are noted to touch over the full width; null where none was.</summary>
    public static CheckOutcome? OfContact(UnitFrame unit, MeasuredQuantity quantity)
    {
        var places = UnitPlaces.Of(unit, quantity);
        var open = places.Usable.Where(place => place.Blade is null && IsOpen(place.Knowledge)).ToList();
        if (open.Count == 0)
        {
            return null;
        }

        var told = open.ConvertAll(place =>
            $"{places.Said(place.Station, place.Blade)} {Wording.Of(place.Knowledge!, place.System)}"
        );
        return Told.Unproven(
            FindingReason.Conflicting,
            $"{Wording.Sentence(Wording.Of(quantity))}: light contact over the full width was noted, and a gap was read with nothing turned between: {string.Join("; ", told)}",
            Told.Sorted(open.SelectMany(place => place.Evidence)),
            new Remedy.ReadAgain(
                quantity,
                ["across"],
                "contact over the full width and a gap cannot both be: set it anew, then note contact again"
            )
        );
    }

    private static bool IsOpen(Knowledge? knowledge) =>
        knowledge switch
        {
            LengthInterval { Lower: { } lower } => lower.Value > Length.Zero,
            MeasuredValue measured => measured.Value - measured.Expanded.Value > Length.Zero,
            _ => false,
        };

    /// <summary>Outside by its best value, or with all that feelers tell of it.</summary>
    private static bool IsOutside(Comparison compared) =>
        (compared.Value ?? compared.KnownLower) > compared.UpperLimit
        || (compared.Value ?? compared.KnownUpper) < compared.LowerLimit;

    private static string Said(Comparison compared, UnitPlaces places)
    {
        var system = compared.ToldIn ?? UnitSystem.Metric;
        var at =
            places
                .Usable.Where(place => UnitPlaces.Name(place.Station, place.Blade) == compared.Place)
                .Select(place => places.Said(place.Station, place.Blade))
                .FirstOrDefault()
            ?? $"{compared.Place}, by the line through what was read,";
        var known =
            compared.Value is { } value ? Wording.Beside(value, compared.Uncertainty, system)
            : compared.KnownLower is { } least && least > compared.UpperLimit
                ? $"at least {Wording.AtMost(least, system)}"
            : $"less than {Wording.AtLeast(compared.KnownUpper!.Value, system)}";
        return $"{at} {known}, {ZoneWords.Of(compared.LowerLimit, compared.UpperLimit, system)}";
    }
}

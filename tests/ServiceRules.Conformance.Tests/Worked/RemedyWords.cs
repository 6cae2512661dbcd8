using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;

namespace ServiceRules.Conformance.Tests.Worked;

/// <summary>A remedy in one line, from what was worked out and from what the product told, to be compared.</summary>
internal static partial class RemedyWords
{
    public static string Wanted(JsonObject wanted)
    {
        if (WorkedRecord.Text(wanted, "readAgain") is { } quantity)
        {
            return $"read {quantity} at {string.Join(", ", WorkedRecord.Texts(wanted, "places"))}";
        }

        string again = string.Join(", ", WorkedRecord.Texts(wanted, "again").Order(StringComparer.Ordinal));
        string left = wanted["left"]?.ToString() ?? string.Empty;
        string right = wanted["right"]?.ToString() ?? string.Empty;
        if (WorkedRecord.Text(wanted, "turn") is { } adjuster)
        {
            IEnumerable<string> landing = wanted["predicted"]!
                .AsObject()
                .Select(place => $"{place.Key} {place.Value![0]} {place.Value[1]}");
            return $"turn {adjuster} {left} {right}: {string.Join(", ", WorkedRecord.Texts(wanted, "sequence"))}; "
                + $"{string.Join(", ", landing)}; again {again}";
        }

        return WorkedRecord.Text(wanted, "openUntilFree") is { } opened
            ? $"open {opened} until free, then {wanted["then"]}; again {again}"
            : $"move {WorkedRecord.Text(wanted, "move")} {left} {right}; again {again}";
    }

    public static string Told(Remedy? remedy) =>
        remedy switch
        {
            Remedy.Turn turn => $"turn {Words.Of(turn.Adjuster)} {turn.LeftSteps} {turn.RightSteps}: "
                + $"{string.Join(", ", turn.Sequence.Select(step => $"{Words.Of(step.Side)} {(step.Opens ? "opens" : "closes")}"))}; "
                + $"{string.Join(", ", turn.Predicted.Select(at => $"{at.Place} {Told(at.Before)} {Told(at.After)}"))}; "
                + $"again {Again(turn.Again)}",
            Remedy.OpenUntilFree free =>
                $"open {Words.Of(free.Adjuster)} until free, then {free.ThenOpen}; again {Again(free.Again)}",
            Remedy.Move move =>
                $"move {Words.Of(move.Adjuster)} {Told(move.Left)} {Told(move.Right)}; again {Again(move.Again)}",
            Remedy.ReadAgain read => $"read {Words.Of(read.Quantity)} at {string.Join(", ", read.Places)}",
            // Words tell lengths in the units that were read; what is to be done is the same in either.
            Remedy.Act act => LengthInWords.Replace(act.What, "a length"),
            _ => $"{remedy}",
        };

    // Worked by hand to a ten-thousandth of a millimetre.
    private static string Told(Length length) =>
        Words.Of(Length.FromMillimetres(Math.Round(length.Millimetres, 4))) ?? string.Empty;

    private static string Again(IEnumerable<MeasuredQuantity> quantities) =>
        string.Join(", ", quantities.Select(Words.Of).Order(StringComparer.Ordinal));

    [GeneratedRegex(@"\d+(\.\d+)? (mm|in)\b")]
    private static partial Regex LengthInWords { get; }
}

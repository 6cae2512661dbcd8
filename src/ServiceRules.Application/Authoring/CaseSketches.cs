using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json.Nodes;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Formats.Cases;
using ServiceRules.Rules.Checking;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.Authoring;

/// <summary>
/// Changes of a record by which a rule on one quantity may come out otherwise: readings left out, spoilt, or made void by
/// what is turned after them. Which verdict each gives is for the trial to say.
/// </summary>
/// <param name="record">The record; its first unit is the one that is judged.</param>
/// <param name="rule">The rule.</param>
/// <param name="quantity">What its check is about.</param>
internal sealed class CaseSketches(JsonObject record, Rule rule, MeasuredQuantity quantity)
{
    private const string Entries = "/units/0/entries";

    // Close to what was read first: a case near the edge shows more.
    private static readonly ImmutableArray<decimal> Factors =
    [
        1.03m,
        0.97m,
        1.1m,
        0.9m,
        1.25m,
        0.8m,
        2m,
        0.5m,
        4m,
        10m,
    ];

    private static readonly string[] Figures = ["value", "feeler"];

    private static readonly string[] Directions = ["open", "close", "raise", "lower"];

    private JsonArray AllEntries => record["units"]![0]!["entries"]!.AsArray();

    private ImmutableArray<int> Read =>
        [
            .. Enumerable
                .Range(0, AllEntries.Count)
                .Where(at => (string?)AllEntries[at]!["read"] == FileWord.Of(quantity)),
        ];

    private string Word => FileWord.Of(quantity).Replace('-', ' ');

    /// <summary>Changes by which it may be broken or no longer proven.</summary>
    public IEnumerable<CaseSketch> Spoilt(LimitSheet? sheet)
    {
        if (!Read.IsEmpty)
        {
            yield return new($"no reading of {Word}", [.. Read.Reverse().Select(Remove)]);
        }

        yield return Replaced("condition", "faulty", $"{Word} found faulty");
        foreach (var contact in new[] { "heavy", "partial", "none", "light" })
        {
            yield return Replaced("contact", contact, $"contact is {contact}");
        }

        yield return Replaced("paper", "misses", "a paper strip is missed");
        foreach (var factor in Factors)
        {
            yield return Scaled(factor);
        }

        yield return Toggled(true, "every feeler passes");
        yield return Toggled(false, "no feeler passes");
        foreach (var at in Read)
        {
            yield return new($"one reading of {Word} left out", [Remove(at)]);
        }

        yield return Phase();
        foreach (var turned in Turned(sheet))
        {
            yield return turned;
        }
    }

    /// <summary>Changes by which it may no longer apply.</summary>
    public IEnumerable<CaseSketch> Elsewhere()
    {
        foreach (var task in Enum.GetValues<ServiceTask>().Where(task => !rule.When.Tasks.Contains(task)))
        {
            yield return new(
                "the same at another task",
                [new(PatchOperation.Replace, "/tasks", null, new JsonArray(FileWord.Of(task)))]
            );
        }

        yield return new(
            "without the attachment",
            [new(PatchOperation.Remove, "/units/0/attachments", null, null)]
        );
    }

    private static PatchStep Remove(int at) => new(PatchOperation.Remove, Place(at), null, null);

    private static string Place(int at) => FormattableString.Invariant($"{Entries}/{at}");

    private CaseSketch Replaced(string member, JsonNode value, string name) =>
        new(
            name,
            [
                .. Read.Where(at => AllEntries[at]![member] is not null)
                    .Select(at => new PatchStep(
                        PatchOperation.Replace,
                        $"{Place(at)}/{member}",
                        null,
                        value.DeepClone()
                    )),
            ]
        );

    private CaseSketch Toggled(bool passes, string name) => Replaced("passes", passes, name);

    private CaseSketch Scaled(decimal factor) =>
        new(
            factor > 1 ? $"{Word} too large" : $"{Word} too small",
            [
                .. from at in Read
                from member in Figures
                let old = AllEntries[at]![member]
                where old is not null
                select new PatchStep(
                    PatchOperation.Replace,
                    $"{Place(at)}/{member}",
                    null,
                    Times(old, factor)
                ),
            ]
        );

    private static JsonNode Times(JsonNode old, decimal factor) =>
        old is JsonArray stack
            ? new JsonArray([.. stack.Select(one => Times(one!, factor))])
            : Times((string)old!, factor);

    private static string Times(string text, decimal factor)
    {
        var value = Math.Round(PrintedLength.Parse(text).OrThrow().Value.Millimetres * factor, 3);
        return value.ToString("0.00#", CultureInfo.InvariantCulture) + " mm";
    }

    private CaseSketch Phase() =>
        new(
            $"{Word} as found only",
            [.. Read.Select(at => new PatchStep(PatchOperation.Add, $"{Place(at)}/phase", null, "found"))]
        );

    private IEnumerable<CaseSketch> Turned(LimitSheet? sheet) =>
        from adjuster in sheet?.Adjusters ?? []
        where adjuster.Disturbs.Any(disturbed => disturbed.Quantity == quantity)
        from direction in Directions
        let word = FileWord.Of(adjuster.Kind)
        select new CaseSketch(
            $"{word.Replace('-', ' ')} turned after the reading of {Word}",
            [
                new(
                    PatchOperation.Add,
                    $"{Entries}/-",
                    null,
                    new JsonObject
                    {
                        ["turn"] = word,
                        ["side"] = "both",
                        ["direction"] = direction,
                        ["amount"] = "not-stated",
                    }
                ),
            ]
        );
}

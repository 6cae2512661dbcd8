using ServiceRules.Application.Ledger;
using ServiceRules.Formats.Json;

namespace ServiceRules.Host.Problems;

/// <summary>Where what was sent is not what stands.</summary>
/// <param name="Pointer">The place.</param>
/// <param name="Stood">What stands there, as JSON, shortened; null: nothing.</param>
/// <param name="Sent">What was sent there, as JSON, shortened; null: nothing.</param>
internal sealed record ToldDifference(string Pointer, string? Stood, string? Sent)
{
    private const int Length = 200;

    public static ToldDifference Of(JsonChange change) =>
        new(Shortened.To(change.Pointer, ReadLimits.PointerLength), Within(change.Old), Within(change.New));

    private static string? Within(string? text) => text is null ? null : Shortened.To(text, Length);
}

using System.Text.Json;

namespace ServiceRules.Application.Ledger;

/// <summary>
/// Tells an open job sent again further on from a correction. Progress only adds: every value that stood still stands,
/// lists go on at their end. A closed job may only gain its follow-up.
/// </summary>
internal static class RecordProgress
{
    private const string SignOff = "signOff";
    private const string FollowUp = "followUp";

    public static bool IsProgress(ReadOnlyMemory<byte> before, ReadOnlyMemory<byte> after)
    {
        using var old = JsonDocument.Parse(before);
        using var now = JsonDocument.Parse(after);
        return old.RootElement.TryGetProperty(SignOff, out _)
            ? IsFollowedUp(old.RootElement, now.RootElement)
            : OnlyAdds(old.RootElement, now.RootElement);
    }

    private static bool IsFollowedUp(JsonElement old, JsonElement now) =>
        !old.TryGetProperty(FollowUp, out _)
        && now.TryGetProperty(FollowUp, out _)
        && now.GetPropertyCount() == old.GetPropertyCount() + 1
        && old.EnumerateObject()
            .All(member =>
                now.TryGetProperty(member.Name, out var same) && JsonElement.DeepEquals(member.Value, same)
            );

    private static bool OnlyAdds(JsonElement old, JsonElement now) =>
        (old.ValueKind, now.ValueKind) switch
        {
            (JsonValueKind.Object, JsonValueKind.Object) => old.EnumerateObject()
                .All(member => now.TryGetProperty(member.Name, out var more) && OnlyAdds(member.Value, more)),
            (JsonValueKind.Array, JsonValueKind.Array) => old.GetArrayLength() <= now.GetArrayLength()
                && old.EnumerateArray()
                    .Zip(now.EnumerateArray())
                    .All(pair => OnlyAdds(pair.First, pair.Second)),
            _ => JsonElement.DeepEquals(old, now),
        };
}

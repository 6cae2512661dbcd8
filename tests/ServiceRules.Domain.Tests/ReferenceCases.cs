using System.Text.Json;
using ServiceRules.TestKit;

namespace ServiceRules.Domain.Tests;

/// <summary>The cases of a JSON reference file, found by their ids.</summary>
internal static class ReferenceCases
{
    public static IReadOnlyList<JsonElement> In(string folder, string file, string member) =>
        [
            .. JsonDocument
                .Parse(ReferenceFiles.ReadText(folder, file))
                .RootElement.GetProperty(member)
                .EnumerateArray(),
        ];

    public static JsonElement Named(this IReadOnlyList<JsonElement> cases, string id) =>
        cases.Single(c => c.GetProperty("id").GetString() == id);

    public static TheoryData<string> Ids(this IReadOnlyList<JsonElement> cases)
    {
        var ids = new TheoryData<string>();
        foreach (var one in cases)
        {
            ids.Add(one.GetProperty("id").GetString()!);
        }

        return ids;
    }
}

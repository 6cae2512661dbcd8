using System.Text.Json;

namespace ServiceRules.Host.Description;

/// <summary>One thing to ask, as a page tells it.</summary>
public sealed record DescribedOperation(
    string Method,
    string Path,
    string Group,
    string Summary,
    string? Told,
    IReadOnlyList<string> Parameters,
    IReadOnlyList<string> Answers
)
{
    /// <summary>All of a description, in its order.</summary>
    public static IReadOnlyList<DescribedOperation> All(byte[] description)
    {
        using var document = JsonDocument.Parse(description);
        return
        [
            .. document
                .RootElement.GetProperty("paths")
                .EnumerateObject()
                .SelectMany(path =>
                    path.Value.EnumerateObject().Select(operation => Of(path.Name, operation))
                ),
        ];
    }

    private static DescribedOperation Of(string path, JsonProperty operation) =>
        new(
            operation.Name.ToUpperInvariant(),
            path,
            operation.Value.TryGetProperty("tags", out var tags) ? tags[0].GetString()! : "",
            Text(operation.Value, "summary") ?? "",
            Text(operation.Value, "description"),
            operation.Value.TryGetProperty("parameters", out var parameters)
                ? [.. parameters.EnumerateArray().Select(Parameter)]
                : [],
            [.. operation.Value.GetProperty("responses").EnumerateObject().Select(Answer)]
        );

    private static string Parameter(JsonElement parameter)
    {
        var told = Text(parameter, "description");
        return $"{Text(parameter, "name")} ({Text(parameter, "in")})" + (told is null ? "" : $": {told}");
    }

    private static string Answer(JsonProperty answer)
    {
        var types = answer.Value.TryGetProperty("content", out var content)
            ? string.Join(", ", content.EnumerateObject().Select(one => one.Name))
            : "";
        return types.Length == 0 ? answer.Name : $"{answer.Name} {types}";
    }

    private static string? Text(JsonElement element, string name) =>
        element.TryGetProperty(name, out var text) ? text.GetString() : null;
}

using System.Text.Json;

namespace ServiceRules.Application.Due;

/// <summary>What kinds and sources are called where they are told.</summary>
public static class DueWords
{
    public static string Of(DueKind kind) => JsonNamingPolicy.KebabCaseLower.ConvertName(kind.ToString());

    public static string Of(DueSource source) =>
        JsonNamingPolicy.KebabCaseLower.ConvertName(source.ToString());
}

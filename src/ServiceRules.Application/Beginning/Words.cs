using System.Text.Json;

namespace ServiceRules.Application.Beginning;

/// <summary>Words of vocabularies as records spell them.</summary>
internal static class Words
{
    public static string Of(Enum word) => JsonNamingPolicy.KebabCaseLower.ConvertName(word.ToString());
}

using System.Text.Json;

namespace ServiceRules.Application.RuleCases;

/// <summary>The words of the files: `HeightOfCut` stands there as `height-of-cut`.</summary>
internal static class FileWords
{
    public static string Of<TEnum>(TEnum value)
        where TEnum : struct, Enum => JsonNamingPolicy.KebabCaseLower.ConvertName(value.ToString());

    /// <summary>A member's name, as the file writes it: `sideToSide`.</summary>
    public static string MemberOf<TEnum>(TEnum value)
        where TEnum : struct, Enum => JsonNamingPolicy.CamelCase.ConvertName(value.ToString());
}

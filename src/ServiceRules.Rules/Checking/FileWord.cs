using System.Text;

namespace ServiceRules.Rules.Checking;

/// <summary>The words of the files: <c>HeightOfCut</c> stands there as <c>height-of-cut</c>.</summary>
public static class FileWord
{
    /// <summary>The word of an enumeration member.</summary>
    public static string Of<TEnum>(TEnum value)
        where TEnum : struct, Enum
    {
        var word = new StringBuilder();
        foreach (var letter in value.ToString())
        {
            if (char.IsAsciiLetterUpper(letter) && word.Length > 0)
            {
                word.Append('-');
            }

            word.Append(char.ToLowerInvariant(letter));
        }

        return word.ToString();
    }
}

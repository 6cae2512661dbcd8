using System.Globalization;

namespace ServiceRules.Application.Ledger;

/// <summary>Text that every database keeps as it is.</summary>
internal static class PlainText
{
    /// <summary>Whether there is neither a control character nor half of a surrogate pair in it.</summary>
    public static bool Is(string text)
    {
        for (var at = 0; at < text.Length; at++)
        {
            switch (CharUnicodeInfo.GetUnicodeCategory(text, at))
            {
                case UnicodeCategory.Control or UnicodeCategory.Surrogate:
                    return false;
                default:
                    at += char.IsHighSurrogate(text[at]) ? 1 : 0;
                    break;
            }
        }

        return true;
    }
}

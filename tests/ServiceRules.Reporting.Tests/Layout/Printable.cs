namespace ServiceRules.Reporting.Tests.Layout;

/// <summary>A text without its white space, the form in which input and page are compared.</summary>
internal static class Printable
{
    public static string Of(string text) => string.Concat(text.Where(symbol => !char.IsWhiteSpace(symbol)));
}

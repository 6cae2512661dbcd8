using System.Net;
using System.Text.RegularExpressions;

namespace ServiceRules.Host.Tests.Bench;

/// <summary>The form of a page that was answered with, as a browser would send it.</summary>
internal sealed partial class FilledPage
{
    private FilledPage(string html) => Html = html;

    public string Html { get; }

    public Dictionary<string, string> Fields { get; } = new(StringComparer.Ordinal);

    /// <summary>The record that the page holds.</summary>
    public string Record => Fields["record"];

    public static FilledPage Of(string html)
    {
        var page = new FilledPage(html);
        var form = html[html.IndexOf("<form method=\"post\"", StringComparison.Ordinal)..];
        foreach (Match input in Input().Matches(form))
        {
            page.Fields[Attribute(input.Value, "name")] = Attribute(input.Value, "value");
        }

        foreach (Match select in Select().Matches(form))
        {
            var options = Option().Matches(select.Groups[2].Value);
            var chosen =
                options.FirstOrDefault(option => Selected().IsMatch(option.Groups[1].Value)) ?? options[0];
            page.Fields[Attribute(select.Groups[1].Value, "name")] = chosen
                .Groups[1]
                .Value.Contains("value=", StringComparison.Ordinal)
                ? Attribute(chosen.Groups[1].Value, "value")
                : WebUtility.HtmlDecode(chosen.Groups[2].Value);
        }

        page.Fields["record"] = WebUtility.HtmlDecode(TextArea().Match(form).Groups[1].Value);
        return page;
    }

    /// <summary>What the page tells beside a field; null: nothing.</summary>
    public string? WrongAt(string pointer)
    {
        var told = Regex.Match(Html, $"<p class=\"error\" id=\"wrong:{Regex.Escape(pointer)}\">([^<]*)</p>");
        var field = Regex.Match(Html, $"<(input|select) id=\"{Regex.Escape(pointer)}\"[^>]*>").Value;
        Assert.Equal(told.Success, field.Contains("aria-invalid=\"true\"", StringComparison.Ordinal));
        return told.Success ? WebUtility.HtmlDecode(told.Groups[1].Value) : null;
    }

    private static string Attribute(string tag, string name)
    {
        var found = Regex.Match(tag, $"\\s{name}=\"([^\"]*)\"");
        return found.Success ? WebUtility.HtmlDecode(found.Groups[1].Value) : "";
    }

    [GeneratedRegex("<input [^>]*>")]
    private static partial Regex Input();

    [GeneratedRegex("(<select [^>]*>)(.*?)</select>", RegexOptions.Singleline)]
    private static partial Regex Select();

    [GeneratedRegex("<option([^>]*)>([^<]*)</option>")]
    private static partial Regex Option();

    [GeneratedRegex(@"\sselected(\s|=|$)")]
    private static partial Regex Selected();

    [GeneratedRegex("<textarea[^>]*>(.*?)</textarea>", RegexOptions.Singleline)]
    private static partial Regex TextArea();
}

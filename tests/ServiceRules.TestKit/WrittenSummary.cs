using System.Xml.Linq;

namespace ServiceRules.TestKit;

/// <summary>The summary above a constant or a member in the source, from the documentation that the compiler wrote out.</summary>
public static class WrittenSummary
{
    /// <summary>The sentences above a constant, without line breaks.</summary>
    /// <param name="holder">The type that declares it.</param>
    /// <param name="member">Its name.</param>
    public static string Of(Type holder, string member)
    {
        ArgumentNullException.ThrowIfNull(holder);
        string file = Path.Combine(AppContext.BaseDirectory, holder.Assembly.GetName().Name + ".xml");
        string name = $"F:{holder.FullName}.{member}";
        string text =
            XDocument
                .Load(file)
                .Descendants("member")
                .Single(one => string.Equals((string?)one.Attribute("name"), name, StringComparison.Ordinal))
                .Element("summary")
                ?.Value
            ?? "";
        return string.Join(' ', text.Split([' ', '\n', '\r'], StringSplitOptions.RemoveEmptyEntries));
    }
}

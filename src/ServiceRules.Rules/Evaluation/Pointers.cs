using System.Globalization;

namespace ServiceRules.Rules.Evaluation;

/// <summary>JSON pointers (RFC 6901) into a record, as evidence names its entries.</summary>
internal static class Pointers
{
    /// <summary>How the machine went on turf.</summary>
    public const string Tested = "/machine/tested";

    public static string Unit(int index) => string.Create(CultureInfo.InvariantCulture, $"/units/{index}");

    public static string Release(int index) =>
        string.Create(CultureInfo.InvariantCulture, $"/releases/{index}");

    public static string Entry(int unit, int entry) =>
        string.Create(CultureInfo.InvariantCulture, $"/units/{unit}/entries/{entry}");
}

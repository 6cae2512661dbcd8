using System.Buffers.Text;
using System.Globalization;
using System.Text;
using ServiceRules.Application.Due;

namespace ServiceRules.Host.Due;

/// <summary>Where something stands in the list of what falls due, which changes under whoever reads it page by page.</summary>
internal static class DuePlace
{
    private const int MostBytes = 2048;

    /// <summary>By day, then by the rest: of two, none has the same.</summary>
    public static string Of(DueThing thing) =>
        string.Join(
            '\n',
            thing.Due.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
            thing.Site,
            ((int)thing.Kind).ToString(CultureInfo.InvariantCulture),
            thing.Subject,
            thing.About,
            thing.Part
        );

    public static string Write(string place) => Base64Url.EncodeToString(Encoding.UTF8.GetBytes(place));

    /// <summary>Null where it was never written here.</summary>
    public static string? Read(string text)
    {
        if (text.Length > MostBytes || !Base64Url.IsValid(text))
        {
            return null;
        }

        var place = Encoding.UTF8.GetString(Base64Url.DecodeFromChars(text));
        return
            place.Length > 10
            && DateOnly.TryParseExact(
                place.AsSpan(0, 10),
                "yyyy-MM-dd",
                CultureInfo.InvariantCulture,
                DateTimeStyles.None,
                out _
            )
            ? place
            : null;
    }
}

using System.Globalization;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;

namespace ServiceRules.Application.Ledger;

/// <summary>
/// Places of a record at which it names a person, as JSON pointers: an entry of the log leads there, so that it says who without
/// a name, which goes with the record.
/// </summary>
public static class PersonPlace
{
    private const string SignOff = "/signOff/by";

    private static readonly (string Start, string End) People = ("/people/", "/id");
    private static readonly (string Start, string End) Timeline = ("/timeline/", "/by");

    /// <summary>The first place that names somebody; null: none of these does.</summary>
    public static string? Find(ServiceRecord record, string person)
    {
        ArgumentNullException.ThrowIfNull(record);
        var id = new Id<Participant>(person);
        return At(People, Index(record.People, one => one.Id == id))
            ?? At(Timeline, Index(record.Timeline, one => one.Actor == id))
            ?? (record.SignOff?.By == id ? SignOff : null);
    }

    /// <summary>Whom a record names at a place; null: there is nobody.</summary>
    public static string? Read(ServiceRecord record, string place)
    {
        ArgumentNullException.ThrowIfNull(record);
        ArgumentNullException.ThrowIfNull(place);
        return place == SignOff ? record.SignOff?.By.Text
            : IndexIn(People, place) is { } person && person < record.People.Length
                ? record.People[person].Id.Text
            : IndexIn(Timeline, place) is { } entry && entry < record.Timeline.Length
                ? record.Timeline[entry].Actor.Text
            : null;
    }

    private static int? Index<T>(IEnumerable<T> all, Func<T, bool> isIt) =>
        all.Select((one, index) => (One: one, Index: (int?)index))
            .FirstOrDefault(pair => isIt(pair.One))
            .Index;

    private static string? At((string Start, string End) list, int? index) =>
        index is { } at ? string.Create(CultureInfo.InvariantCulture, $"{list.Start}{at}{list.End}") : null;

    private static int? IndexIn((string Start, string End) list, string place) =>
        place.StartsWith(list.Start, StringComparison.Ordinal)
        && place.EndsWith(list.End, StringComparison.Ordinal)
        && place.Length > list.Start.Length + list.End.Length
        && int.TryParse(
            place.AsSpan()[list.Start.Length..^list.End.Length],
            NumberStyles.None,
            CultureInfo.InvariantCulture,
            out var index
        )
            ? index
            : null;
}

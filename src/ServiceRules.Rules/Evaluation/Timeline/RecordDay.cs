using System.Globalization;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Timeline;

/// <summary>
/// The record's date held against the days of its times: what is in force, and what has run out, hangs on it.
/// </summary>
internal static class RecordDay
{
    private const string Pointer = "/date";

    /// <summary>One doubt when the date is not shown to be a day of the job.</summary>
    public static IEnumerable<EntryDoubt> Contradicted(JobDays days)
    {
        if (days.Agree)
        {
            yield break;
        }

        yield return new(
            CredibilityOf.RecordDate,
            Pointer,
            days is { First: { } first, Last: { } last }
                ? $"the record is dated {Day(days.Dated)}, and its times are of {Days(first, last)}"
                : $"nothing in the record has a time that its date {Day(days.Dated)} could be held against",
            Weakens: false
        );
    }

    private static string Days(DateOnly first, DateOnly last) =>
        first == last ? Day(first) : $"{Day(first)} to {Day(last)}";

    private static string Day(DateOnly date) => date.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
}

using System.Globalization;

namespace ServiceRules.Reporting.Reports.SafeWork;

/// <summary>Numbers as a reader likes them: 3, 5-8, 12.</summary>
internal static class NumberRuns
{
    /// <summary>Runs of neighbours; shorter ones than this are told one by one.</summary>
    private const int RunLength = 3;

    /// <param name="numbers">Each once, in order.</param>
    public static IEnumerable<string> Of(IReadOnlyList<int> numbers)
    {
        for (var first = 0; first < numbers.Count; )
        {
            var last = first;
            while (last + 1 < numbers.Count && numbers[last + 1] == numbers[last] + 1)
            {
                last++;
            }
            if (last - first + 1 >= RunLength)
            {
                yield return string.Create(
                    CultureInfo.InvariantCulture,
                    $"{numbers[first]}\u2013{numbers[last]}"
                );
            }
            else
            {
                for (var at = first; at <= last; at++)
                {
                    yield return numbers[at].ToString(CultureInfo.InvariantCulture);
                }
            }
            first = last + 1;
        }
    }
}

using System.Collections.Immutable;
using ServiceRules.Rules.Diagnostics;

namespace ServiceRules.Rules.Checking;

/// <summary>Gathers what the checks have to say, up to more than anybody mends in one sitting.</summary>
internal sealed class Remarks
{
    private const int MostTold = 1_000;

    private readonly List<Diagnostic> all = [];
    private long untold;

    public void Error<T>(string code, Placed<T> at, string below, string what, string right)
        where T : notnull => Add(DiagnosticLevel.Error, code, at.File, at.Pointer + below, what, right);

    public void Notice<T>(string code, Placed<T> at, string below, string what, string right)
        where T : notnull => Add(DiagnosticLevel.Notice, code, at.File, at.Pointer + below, what, right);

    public ImmutableArray<Diagnostic> InOrder() =>
        [
            .. all.Concat(untold > 0 ? [Rest()] : [])
                .OrderBy(remark => remark.File, StringComparer.Ordinal)
                .ThenBy(remark => remark.Pointer, StringComparer.Ordinal)
                .ThenBy(remark => remark.Code, StringComparer.Ordinal),
        ];

    private void Add(
        DiagnosticLevel level,
        string code,
        string file,
        string pointer,
        string what,
        string right
    )
    {
        // A notice never takes the place of an error: the last places are kept for those.
        if (all.Count >= (level is DiagnosticLevel.Error ? MostTold : MostTold / 2))
        {
            untold++;
            return;
        }

        all.Add(
            new()
            {
                Code = code,
                Level = level,
                File = file,
                Pointer = pointer,
                What = what,
                Right = right,
            }
        );
    }

    private Diagnostic Rest() =>
        new()
        {
            Code = DiagnosticCode.TooMuch,
            Level = all.Exists(remark => remark.Level is DiagnosticLevel.Error)
                ? DiagnosticLevel.Error
                : DiagnosticLevel.Notice,
            File = "",
            Pointer = "",
            What = FormattableString.Invariant($"there are {untold} more remarks than are told one by one"),
            Right = "the ones told mended first",
        };
}

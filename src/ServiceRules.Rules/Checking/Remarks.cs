using System.Collections.Immutable;
using ServiceRules.Rules.Diagnostics;

namespace ServiceRules.Rules.Checking;

/// <summary>Gathers what the checks have to say.</summary>
internal sealed class Remarks
{
    private readonly List<Diagnostic> all = [];

    public void Error<T>(string code, Placed<T> at, string below, string what, string right)
        where T : notnull => Add(DiagnosticLevel.Error, code, at.File, at.Pointer + below, what, right);

    public void Notice<T>(string code, Placed<T> at, string below, string what, string right)
        where T : notnull => Add(DiagnosticLevel.Notice, code, at.File, at.Pointer + below, what, right);

    public ImmutableArray<Diagnostic> InOrder() =>
        [
            .. all.OrderBy(remark => remark.File, StringComparer.Ordinal)
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
    ) =>
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

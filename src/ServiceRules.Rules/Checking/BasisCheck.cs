using ServiceRules.Rules.Diagnostics;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Checking;

/// <summary>What is published, or stands in a manual, says where.</summary>
internal static class BasisCheck
{
    public static void Run<T>(Basis basis, Placed<T> at, string below, Remarks remarks)
        where T : notnull
    {
        if (basis.Kind is BasisKind.Published or BasisKind.Manual && string.IsNullOrWhiteSpace(basis.Source))
        {
            remarks.Error(
                DiagnosticCode.NoSource,
                at,
                below,
                $"this rests on `{FileWord.Of(basis.Kind)}` ground and names no source",
                "`source` with title, body and year (or the register id); or `common-practice`, or `from-memory`"
            );
        }
    }
}

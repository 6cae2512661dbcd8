using System.CommandLine;
using ServiceRules.Application.Ledger;

namespace ServiceRules.Cli.Setup;

/// <summary>A ledger that is opened, or begun, only once there is something to file: what is refused leaves none behind.</summary>
internal sealed class LedgerOnDemand(ParseResult parsed, Session session) : IDisposable
{
    private LedgerInUse? inUse;

    /// <exception cref="InputException">It is not the one its checkpoints speak of.</exception>
    public OpenLedger Ledger => InUse.Ledger;

    /// <exception cref="InputException">It is not the one its checkpoints speak of.</exception>
    public bool BringsBack => InUse.BringsBack;

    private LedgerInUse InUse => inUse ??= LedgerInUse.OrBegun(parsed, session);

    public void Dispose() => inUse?.Dispose();
}

namespace ServiceRules.Reporting.Layout;

/// <summary>Counts every printable character that went in and came out; white space does not count.</summary>
internal sealed class TextLedger(LayoutSession session)
{
    private readonly SortedDictionary<char, long> _balance = [];

    public void Owe(string text, Face face) => Count(session.Visible(text, face), 1);

    public void OweVisible(string visible) => Count(visible, 1);

    public void Settle(IEnumerable<Placed> items)
    {
        foreach (var item in items)
        {
            if (item is Placed.Text text)
            {
                Count(text.Content, -1);
            }
            else if (item is Placed.Group { Role: not StructureRole.Artifact, IsRepeated: false } group)
            {
                Settle(group.Children);
            }
        }
    }

    /// <summary>The characters whose counts differ, none when everything was placed exactly once.</summary>
    public IReadOnlyList<char> Unsettled => [.. _balance.Where(entry => entry.Value != 0).Select(e => e.Key)];

    private void Count(string text, int sign)
    {
        foreach (var symbol in text)
        {
            if (!char.IsWhiteSpace(symbol))
            {
                _balance[symbol] = _balance.GetValueOrDefault(symbol) + sign;
            }
        }
    }
}

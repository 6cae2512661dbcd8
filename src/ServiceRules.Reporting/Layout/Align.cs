namespace ServiceRules.Reporting.Layout;

public enum Align
{
    Left,
    Centre,
    Right,
}

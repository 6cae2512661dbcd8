using System.Linq.Expressions;
using NRules.RuleModel;

namespace ServiceRules.Engine.Tests.Inference;

/// <summary>Collects every expression node of every condition on the left-hand side of a rule.</summary>
internal sealed class LambdaShape : RuleElementVisitor<List<ExpressionType>>
{
    public static IReadOnlyList<ExpressionType> OfLeftHandSide(IRuleDefinition rule)
    {
        var nodes = new List<ExpressionType>();
        new LambdaShape().Visit(nodes, rule.LeftHandSide);
        return nodes;
    }

    protected override NamedExpressionElement VisitNamedExpression(
        List<ExpressionType> context,
        NamedExpressionElement element
    )
    {
        new Walk(context).Visit(element.Expression);
        return base.VisitNamedExpression(context, element);
    }

    private sealed class Walk(List<ExpressionType> nodes) : ExpressionVisitor
    {
        public override Expression? Visit(Expression? node)
        {
            if (node is not null)
            {
                nodes.Add(node.NodeType);
            }

            return base.Visit(node);
        }
    }
}

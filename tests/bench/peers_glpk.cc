#include "tests/bench/peers_glpk.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <memory>
#include <stdexcept>

#include <glpk.h>

#include "tests/bench/stopwatch.h"

namespace kartwright {
namespace {

struct Free {
  void operator()(glp_prob* problem) const { glp_delete_prob(problem); }
};
using Programme = std::unique_ptr<glp_prob, Free>;

struct Term {
  int column;
  double factor;
};

int add_column(glp_prob* p, int kind, double from, double to, double cost) {
  const int column = glp_add_cols(p, 1);
  glp_set_col_kind(p, column, kind);
  glp_set_col_bnds(p, column, std::isfinite(to) ? GLP_DB : GLP_LO, from, to);
  glp_set_obj_coef(p, column, cost);
  return column;
}

void add_row(glp_prob* p, int type, double bound, const std::vector<Term>& terms) {
  const int row = glp_add_rows(p, 1);
  glp_set_row_bnds(p, row, type, bound, bound);
  std::vector<int> columns{0};  // GLPK counts from 1
  std::vector<double> factors{0.0};
  for (const Term& term : terms) {
    columns.push_back(term.column);
    factors.push_back(term.factor);
  }
  glp_set_mat_row(p, row, static_cast<int>(terms.size()), columns.data(), factors.data());
}

/// Each number as terms that sum to it, with costs and the limit on how many are not zero.
using Numbers = std::vector<std::vector<Term>>;

/// x in -4..4 with |x| <= 4 z and a >= |x|.
Numbers as_integers(glp_prob* p, const IntegerSquares& problem, int most) {
  Numbers out;
  std::vector<Term> changed;
  for (const double cost : problem.costs) {
    const int x = add_column(p, GLP_IV, -kFarthest, kFarthest, 0.0);
    const int z = add_column(p, GLP_BV, 0.0, 1.0, 0.0);
    const int a = add_column(p, GLP_CV, 0.0, kFarthest, cost);
    for (const double sign : {1.0, -1.0}) {
      add_row(p, GLP_LO, 0.0, {{z, kFarthest}, {x, sign}});
      add_row(p, GLP_LO, 0.0, {{a, 1.0}, {x, sign}});
    }
    changed.push_back({z, 1.0});
    out.push_back({{x, 1.0}});
  }
  add_row(p, GLP_UP, most, changed);
  return out;
}

/// x as the choice of at most one of its values.
Numbers as_choices(glp_prob* p, const IntegerSquares& problem, int most) {
  Numbers out;
  std::vector<Term> changed;
  for (const double cost : problem.costs) {
    std::vector<Term> x, one;
    for (int value = -kFarthest; value <= kFarthest; ++value) {
      if (value == 0) continue;
      const int y = add_column(p, GLP_BV, 0.0, 1.0, cost * std::abs(value));
      x.push_back({y, static_cast<double>(value)});
      one.push_back({y, 1.0});
      changed.push_back({y, 1.0});
    }
    add_row(p, GLP_UP, 1.0, one);
    out.push_back(x);
  }
  add_row(p, GLP_UP, most, changed);
  return out;
}

/// How far at most `most` numbers can move a residual.
double reach(const IntegerSquares& problem, std::size_t row, int most) {
  std::vector<double> sizes;
  for (const double effect : problem.effects.at(row)) sizes.push_back(std::abs(effect));
  std::sort(sizes.rbegin(), sizes.rend());
  double sum = 0.0;
  for (int i = 0; i < most; ++i) sum += sizes.at(static_cast<std::size_t>(i));
  return kFarthest * sum;
}

/// t >= e^2 for the residual e = r + J x: residuals are whole numbers, so it is enough that
/// t >= (2k + 1) e - k (k + 1), the chord from k to k + 1, for each whole k in reach.
void add_squares(glp_prob* p, const IntegerSquares& problem, const Numbers& numbers, int most) {
  for (std::size_t i = 0; i < problem.residuals.size(); ++i) {
    const int t = add_column(p, GLP_CV, 0.0, HUGE_VAL, problem.weights.at(i));
    const double r = problem.residuals.at(i);
    const double far = reach(problem, i, most);
    for (double k = r - far; k < r + far + 1.0; k += 1.0) {
      const double slope = 2.0 * k + 1.0;
      std::vector<Term> terms{{t, 1.0}};
      for (std::size_t j = 0; j < numbers.size(); ++j) {
        const double effect = problem.effects.at(i).at(j);
        if (effect == 0.0) continue;
        for (const Term& term : numbers[j]) {
          terms.push_back({term.column, -slope * effect * term.factor});
        }
      }
      add_row(p, GLP_LO, slope * r - k * (k + 1.0), terms);
    }
  }
}

struct Form {
  const char* name;
  Numbers (*numbers)(glp_prob*, const IntegerSquares&, int);
};

Programme build(const Form& form, const IntegerSquares& problem, int most) {
  Programme p(glp_create_prob());
  add_squares(p.get(), problem, form.numbers(p.get(), problem, most), most);
  return p;
}

/// Solves it and gives the optimum.
double solve(glp_prob* p, bool presolve, bool cuts) {
  if (!presolve) {
    // Without the presolver the relaxation is to be solved first.
    glp_smcp simplex;
    glp_init_smcp(&simplex);
    simplex.msg_lev = GLP_MSG_OFF;
    glp_std_basis(p);
    if (glp_simplex(p, &simplex) != 0) throw std::runtime_error("glpk: no relaxation");
  }
  glp_iocp settings;
  glp_init_iocp(&settings);
  settings.msg_lev = GLP_MSG_OFF;
  settings.presolve = presolve ? GLP_ON : GLP_OFF;
  const int on = cuts ? GLP_ON : GLP_OFF;
  settings.gmi_cuts = settings.mir_cuts = settings.cov_cuts = settings.clq_cuts = on;
  if (glp_intopt(p, &settings) != 0 || glp_mip_status(p) != GLP_OPT) {
    throw std::runtime_error("glpk: no optimum");
  }
  return glp_mip_obj_val(p);
}

}  // namespace

GlpkTime time_glpk(const IntegerSquares& problem, int most, int goes) {
  glp_term_out(GLP_OFF);
  GlpkTime best;
  for (const Form& form : {Form{"integers", as_integers}, Form{"choices", as_choices}}) {
    for (const bool presolve : {false, true}) {
      for (const bool cuts : {false, true}) {
        const Programme p = build(form, problem, most);
        double value = 0.0;
        const double seconds = time_of(goes, [&] { value = solve(p.get(), presolve, cuts); });
        if (!best.by.empty() && seconds >= best.seconds) continue;
        best = {seconds, value,
                std::string(form.name) + (presolve ? ", presolve" : "") + (cuts ? ", cuts" : "")};
      }
    }
  }
  return best;
}

}  // namespace kartwright

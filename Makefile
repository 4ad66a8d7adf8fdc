# The commands are explained in README.md under "Set-up". PYTHON=... names the Python to make .venv with.
.PHONY: site test soak bench clean setup

site: setup
	@.venv/bin/python -m builder make

# ARGS goes to pytest: make test ARGS="-k dew_point"
test: setup
	@.venv/bin/python -m tests.tools.run $(ARGS)

# All that make test goes through in shares, and what runs for long: hours
soak: setup
	@SEAMBOOK_SOAK=1 .venv/bin/python -m tests.tools.run $(ARGS)

bench: setup
	@.venv/bin/python -m tests.bench $(ARGS)

setup:
	@sh builder/setup.sh

clean:
	rm -rf .seambook-kept-site .seambook-spare-site .venv .hypothesis .mypy_cache .ruff_cache .pytest_cache build dist *.egg-info tests/tools/node_modules
	find site -mindepth 1 ! -path site/.gitignore -delete
	find builder tests -name __pycache__ -prune -exec rm -rf {} +
